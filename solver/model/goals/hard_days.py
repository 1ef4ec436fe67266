"""The second goal: how hard trips are beside the peak, by each trip's largest load fraction.

A trip is hard above 90 % of the caps, and each further 2 % counts twice as much: so the hardest
trips are lowered first. Which units ride on which trip does not change here; each trip is packed
for itself.
"""

from __future__ import annotations

import math
from collections.abc import Hashable
from dataclasses import replace

from solver.model.assignment.by_trip import by_trip, join, join_one, riding
from solver.model.assignment.draft import Draft
from solver.model.assignment.former_loads import changes_by_trip, had_by
from solver.model.assignment.load_fractions import peak_of, trip_fractions
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import spread_slack
from solver.model.goals.goal import SearchState, SearchTools
from solver.model.goals.pack_well import pack_well
from solver.model.run import bound_seconds
from solver.model.solvers.exact_trip import TripAnswer
from solver.model.solvers.relaxation import least_hardness_bound
from solver.model.solvers.relaxation_question import BOUND_TOLERANCE
from solver.quantities import FRACTION_GRID
from solver.rulebook.goals import HARD_FROM, HARD_SLOPES, HARD_STEP

_SEARCHED_RIDES = 700
"""Up to how many rides with a choice a search among all of them takes a breath only [1]."""


def value(frame: Frame, draft: Draft) -> int:
    """How hard all trips are together [1/10,000, weighted]."""
    return round(sum(hardness(fraction) for fraction in trip_fractions(frame, draft)))


def hardness(fraction: float) -> float:
    """What a trip counts by its largest load fraction [1/10,000]: the slopes' growth summed."""
    grown = zip(HARD_SLOPES, (0, *HARD_SLOPES), strict=False)
    return sum(
        (slope - before) * max(0.0, fraction - HARD_FROM - step * HARD_STEP)
        for step, (slope, before) in enumerate(grown)
    )


def bound(state: SearchState) -> int | None:
    """A bound for any plan whose peak is no higher [1/10,000, weighted]."""
    return state.bounds.get("hard_days")


def improve(state: SearchState, tools: SearchTools) -> SearchState:
    """Lower each trip's own largest fraction, its rides unchanged."""
    proven = _proven(state.draft, tools)
    draft, more = _lower_trips(state.draft, tools, _open_trips(state.draft, tools.frame))
    if proven is None:
        return replace(state, draft=draft)
    least = max(0, math.ceil(proven + more))
    return replace(state, draft=draft).with_bound("hard_days", least)


def _proven(draft: Draft, tools: SearchTools) -> float | None:
    """What the linear program proves for the peak that was reached, and a search where small."""
    relaxation = tools.relaxation
    if tools.relaxed.fair is None:
        return None
    peak = max(peak_of(tools.frame, draft), tools.relaxed.fair_up_to)
    proven = least_hardness_bound(
        relaxation, seconds=bound_seconds(tools.watch, 0.2), peak_at_most=peak
    )
    seconds = bound_seconds(tools.watch, 0.3)
    worth_it = tools.limits.gap == 0 or len(relaxation.rides) <= _SEARCHED_RIDES
    if proven is None or not worth_it or seconds <= 0 or value(tools.frame, draft) <= proven:
        return proven
    searched = least_hardness_bound(relaxation, seconds=seconds, peak_at_most=peak, fully=True)
    return max(proven, searched or 0.0)


def _open_trips(draft: Draft, frame: Frame) -> list[int]:
    """The trips that may be packed anew.

    Near to a former plan those whose people newly have most of what they have, a new trip above
    all. Another keeps next to nothing in its place when it is packed from nothing.
    """
    held = by_trip(frame, draft)
    if frame.former is None:
        return list(range(len(held)))
    new = changes_by_trip(frame.former, had_by(frame, draft))
    return [trip for trip, units in enumerate(held) if 2 * new[trip] >= sum(units.values())]


def _lower_trips(draft: Draft, tools: SearchTools, trips: list[int]) -> tuple[Draft, float]:
    """The draft with some trips lower, and by how much that raises the bound.

    Trips whose cargo is settled must pass the relaxed plan's fractions, since their units are
    whole: that much may be added. It counts from the fractions before rounding, since the bound
    is rounded once, not once for each trip.
    """
    relaxed = tools.relaxed.fair
    frame, watch = tools.frame, tools.watch
    fractions = trip_fractions(frame, draft)
    held_by_trip = by_trip(frame, draft)
    slack = spread_slack(frame, draft.rides())
    answers: dict[Hashable, TripAnswer] = {}
    proven_more = 0.0
    for trip in sorted(trips, key=lambda t: -fractions[t]):
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
            packed = join_one(trip, answer.held)
            is_lower = trip_fractions(frame, packed)[trip] < fractions[trip]
            if is_lower and _is_as_near(frame, trip, packed, draft):
                held_by_trip[trip] = answer.held
        is_settled = all((cargo, trip) in frame.settled for cargo in frame.allowed_cargo[trip])
        if is_settled and relaxed is not None:
            least = hardness(relaxed.unrounded[trip] + BOUND_TOLERANCE)
            proven_more += max(0.0, hardness(answer.bound) - least)
    return join(held_by_trip), proven_more


def _is_as_near(frame: Frame, trip: int, packed: Draft, draft: Draft) -> bool:
    """Whether a trip packed anew is as near to the former plan as the draft's."""
    if frame.former is None:
        return True
    new, old = (changes_by_trip(frame.former, had_by(frame, one))[trip] for one in (packed, draft))
    return new <= old


def _question(frame: Frame, trip: int, units: dict[int, int], slack: tuple[int, ...]) -> Hashable:
    """What makes two trips the same question."""
    able = tuple(frame.may_carry[cargo, trip] for cargo in units)
    rows = tuple(
        (row.person_id, row.of_mass, row.in_pack, row.in_sled, row.fixed, row.cap)
        for row in frame.load_rows[trip]
    )
    weights = tuple(frame.weight(cargo, trip, of_mass=True) for cargo in units)
    spread = tuple(row.rule_id for row in frame.spread_rows[trip])
    pins = tuple(tuple(frame.pinned(cargo, trip).items()) for cargo in units)
    return (tuple(units.items()), weights, able, rows, pins), spread, slack
