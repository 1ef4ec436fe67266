"""The second goal: each trip's own largest load fraction, summed over trips.

Which units ride on which trip does not change here; each trip is packed for itself.
"""

from __future__ import annotations

import math
from collections.abc import Hashable
from dataclasses import replace

from solver.model.assignment.by_trip import by_trip, join, join_one, riding
from solver.model.assignment.draft import Draft
from solver.model.assignment.load_fractions import peak_of, trip_fractions
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import spread_slack
from solver.model.goals.goal import SearchState, SearchTools
from solver.model.goals.pack_well import pack_well
from solver.model.run import bound_seconds
from solver.model.solvers.exact_trip import TripAnswer
from solver.model.solvers.relaxation import RelaxedPlan, least_sum_bound
from solver.model.solvers.relaxation_question import BOUND_TOLERANCE
from solver.quantities import FRACTION_GRID

_SEARCHED_RIDES = 700
"""Up to how many rides with a choice a search among all of them takes a breath only [1]."""


def value(frame: Frame, draft: Draft) -> int:
    """The sum of the trips' largest load fractions [1/10,000]."""
    return sum(trip_fractions(frame, draft))


def bound(state: SearchState) -> int | None:
    """A bound on the sum of any plan whose peak is no higher [1/10,000]."""
    return state.bounds.get("fair_loads")


def improve(state: SearchState, tools: SearchTools) -> SearchState:
    """Lower each trip's own largest fraction, its rides unchanged."""
    relaxed = _relaxed(state.draft, tools)
    draft, more = _lower_trips(state.draft, tools, relaxed)
    proven = None if relaxed is None else math.ceil(relaxed.unrounded_bound + more)
    return replace(state, draft=draft).with_bound("fair_loads", proven)


def _relaxed(draft: Draft, tools: SearchTools) -> RelaxedPlan | None:
    """The relaxed plan with a low sum, its bound made to hold for the peak that was reached.

    The bound of the linear program is 0.3 to 0.4 % low; a search among all rides raises it where
    that is soon done, or all is to be proven.
    """
    relaxation, fair = tools.relaxation, tools.relaxed.fair
    peak = max(peak_of(tools.frame, draft), tools.relaxed.fair_up_to)
    if fair is None:
        return None
    if peak > tools.relaxed.fair_up_to:
        seconds = bound_seconds(tools.watch, 0.2)
        proven = least_sum_bound(relaxation, seconds=seconds, peak_at_most=peak)
        if proven is None:
            return None
        fair = replace(fair, unrounded_bound=proven)
    seconds = bound_seconds(tools.watch, 0.3)
    worth_it = tools.limits.gap == 0 or len(relaxation.rides) <= _SEARCHED_RIDES
    if worth_it and not fair.proven and seconds > 0:
        searched = least_sum_bound(relaxation, seconds=seconds, peak_at_most=peak, fully=True)
        fair = replace(fair, unrounded_bound=max(fair.unrounded_bound, searched or 0.0))
    return fair


def _lower_trips(
    draft: Draft, tools: SearchTools, relaxed: RelaxedPlan | None
) -> tuple[Draft, float]:
    """The draft with lower trips, and by how much that raises the bound on the sum.

    Trips whose cargo is settled must pass the relaxed plan's fractions, since their units are
    whole: that much may be added. It counts from the fractions before rounding, since the bound
    on their sum is rounded once, not once for each trip.
    """
    frame, watch = tools.frame, tools.watch
    fractions = trip_fractions(frame, draft)
    held_by_trip = by_trip(frame, draft)
    slack = spread_slack(frame, draft.rides())
    answers: dict[Hashable, TripAnswer] = {}
    proven_more = 0.0
    for trip in sorted(range(len(fractions)), key=lambda t: -fractions[t]):
        held = held_by_trip[trip]
        aim = relaxed.trip_fractions[trip] if relaxed is not None else 0
        if not held or fractions[trip] * FRACTION_GRID <= aim * (FRACTION_GRID + tools.limits.gap):
            continue
        key = _question(frame, trip, riding(held), slack[trip])
        if key not in answers:
            if watch.left() <= 0:
                break
            answers[key] = pack_well(
                frame, trip, held, tools.limits, watch, slack=slack[trip], aim=aim
            )
        answer = answers[key]
        if answer.held is not None:
            reached = trip_fractions(frame, join_one(trip, answer.held))[trip]
            if reached < fractions[trip]:
                held_by_trip[trip] = answer.held
        is_settled = all((cargo, trip) in frame.settled for cargo in frame.allowed_cargo[trip])
        if is_settled and relaxed is not None:
            proven_more += max(0.0, answer.bound - relaxed.unrounded[trip] - BOUND_TOLERANCE)
    return join(held_by_trip), proven_more


def _question(frame: Frame, trip: int, units: dict[int, int], slack: tuple[int, ...]) -> Hashable:
    """What makes two trips the same question."""
    able = tuple(frame.may_carry[cargo, trip] for cargo in units)
    rows = tuple(
        (row.person_id, row.of_mass, row.in_pack, row.in_sled, row.fixed, row.cap)
        for row in frame.load_rows[trip]
    )
    weights = tuple(frame.weight(cargo, trip, of_mass=True) for cargo in units)
    spread = tuple(row.rule_id for row in frame.spread_rows[trip])
    return (tuple(units.items()), weights, able, rows), spread, slack
