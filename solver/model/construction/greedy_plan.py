"""The greedy plan: the one that no answer is worse than, and where the search begins."""

from __future__ import annotations

from dataclasses import dataclass

from solver.model.assignment.draft import Draft
from solver.model.construction.greedy_failure import (
    Stranded,
    Unpacked,
    broken_words,
    stranded_words,
    unpacked_words,
)
from solver.model.construction.greedy_rides import greedy_rides
from solver.model.construction.pack_greedily import pack_greedily
from solver.model.formulation.flow_rows import keeps_flow_rows
from solver.model.formulation.frame import Frame
from solver.model.run import run_within
from solver.outcome import Limits
from solver.progress import Watch


@dataclass(frozen=True, slots=True)
class GreedyPlan:
    """Its rides, None where this way of choosing finds none, and its draft where all fits.

    Without a draft `reason` says on which day it failed, and why.
    """

    rides: dict[tuple[int, int], int] | None
    draft: Draft | None
    reason: str = ""


def greedy_plan(frame: Frame, limits: Limits, watch: Watch) -> GreedyPlan:
    """The greedy rides, and their trips packed where they keep every row."""
    rides = greedy_rides(frame)
    if isinstance(rides, Stranded):
        return GreedyPlan(None, None, stranded_words(frame, rides))
    if not keeps_flow_rows(frame, rides):
        return GreedyPlan(rides, None, broken_words(frame, rides))
    run = run_within(limits, min(2.0, 0.1 * watch.left()), watch)
    packed = pack_greedily(frame, rides, run)
    if isinstance(packed, Unpacked):
        return GreedyPlan(rides, None, unpacked_words(frame, packed))
    return GreedyPlan(rides, packed)
