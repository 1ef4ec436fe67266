"""The greedy plan: the one that no answer is worse than, and where the search begins."""

from __future__ import annotations

from dataclasses import dataclass

from solver.model.assignment.draft import Draft
from solver.model.construction.ease_trip import ease_trip
from solver.model.construction.greedy_failure import (
    Stranded,
    Unpacked,
    broken_words,
    stranded_words,
    unpacked_words,
)
from solver.model.construction.greedy_rides import greedy_rides
from solver.model.construction.one_more import one_more
from solver.model.construction.pack_greedily import pack_greedily
from solver.model.construction.reserve_itineraries import Itinerary
from solver.model.formulation.flow_rows import keeps_flow_rows
from solver.model.formulation.frame import Frame
from solver.model.run import run_within
from solver.outcome import Limits
from solver.progress import Watch

_MOST_FURTHER = 4
"""How many containers beside those that rows ask for come along at most [1]."""


@dataclass(frozen=True, slots=True)
class GreedyPlan:
    """Its rides, None where this way of choosing finds none, and its draft where all fits.

    Without a draft `reason` says on which day it failed, and why.
    """

    rides: dict[tuple[int, int], int] | None
    draft: Draft | None
    reason: str = ""


def greedy_plan(frame: Frame, limits: Limits, watch: Watch) -> GreedyPlan:
    """The greedy rides, and their trips packed where they keep every row.

    What does not fit on one day goes another day. If what one carrier could lose leaves too
    little, one container more comes along.
    """
    more: list[Itinerary] = []
    while True:
        rides = greedy_rides(frame, more)
        if isinstance(rides, Stranded):
            return GreedyPlan(None, None, stranded_words(frame, rides))
        if not keeps_flow_rows(frame, rides):
            return GreedyPlan(rides, None, broken_words(frame, rides))
        rides, packed = _packed(frame, rides, limits, watch)
        if isinstance(packed, Draft):
            return GreedyPlan(rides, packed)
        further = one_more(frame, rides, packed)
        if further is None or len(more) == _MOST_FURTHER or watch.should_stop():
            return GreedyPlan(rides, None, unpacked_words(frame, packed))
        more.append(further)


def _packed(
    frame: Frame, rides: dict[tuple[int, int], int], limits: Limits, watch: Watch
) -> tuple[dict[tuple[int, int], int], Draft | Unpacked]:
    """The rides with every trip packed; a trip that does not fit is eased, each at most once."""
    eased: set[int] = set()
    while True:
        run = run_within(limits, min(2.0, 0.1 * watch.left()), watch)
        packed = pack_greedily(frame, rides, run)
        if isinstance(packed, Draft) or packed.trip in eased or watch.should_stop():
            return rides, packed
        eased.add(packed.trip)
        lighter = ease_trip(frame, rides, packed.trip)
        if lighter is None:
            return rides, packed
        rides = lighter
