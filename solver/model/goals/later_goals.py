"""The goals after the peak: loads trip by trip, mass × height, preferences, hand-overs.

Each keeps what the goals before reached, the last two within the tolerance that the limits name.
"""

from __future__ import annotations

from collections.abc import Hashable

from solver.model.assignment.by_trip import (
    Held,
    Rides,
    by_trip,
    join,
    join_one,
    riding,
    riding_by_trip,
    within_measure,
)
from solver.model.assignment.draft import Draft
from solver.model.assignment.load_fractions import (
    ascent_of_rides,
    fixed_mass_ascent,
    hand_overs,
    mass_ascent,
    trip_fractions,
)
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import Slack, spread_slack
from solver.model.goals.hand_overs import keep_carriers, keeping_limits
from solver.model.goals.preferences import prefer, preferences
from solver.model.goals.soft_constraints import soft_constraints
from solver.model.packing.longest_first import packed_trip
from solver.model.packing.swaps import lower_peak
from solver.model.run import run_within
from solver.model.solvers.exact_trip import TripAnswer, pack_exactly
from solver.model.solvers.relaxation import Relaxation, RelaxedPlan, least_mass_ascent
from solver.outcome import Limits
from solver.plan import GOAL_UNITS, GoalValue
from solver.progress import Watch
from solver.quantities import FRACTION_GRID

FLOATING = 1e-6
"""What a bound on mass × height may lack for its floating point, as a share [1]."""


def improve_later_goals(
    relaxation: Relaxation,
    draft: Draft,
    limits: Limits,
    watch: Watch,
    *,
    bound: int,
    relaxed: RelaxedPlan | None,
) -> tuple[Draft, tuple[GoalValue, ...]]:
    """The draft after the later goals, and all goal values in order.

    `bound` is on the peak; the relaxed's bound, where there is one, on the sum of the trips'
    fractions of any plan with no higher peak.
    """
    frame = relaxation.frame
    peak = max(trip_fractions(frame, draft), default=0)
    draft, more = _lower_trips(frame, draft, limits, watch, relaxed=relaxed)
    fair = None if relaxed is None else relaxed.bound + more
    peak = max(trip_fractions(frame, draft), default=0)
    watch.finish_stage("fair loads", peak, bound)
    draft, least = _less_height(relaxation, draft, watch)
    watch.finish_stage("mass by height", peak, bound)
    slack = keeping_limits(frame, draft, peak, limits.tolerance)
    asked = soft_constraints(frame)
    draft = prefer(frame, draft, asked, slack, watch)
    watch.finish_stage("preferences", peak, bound)
    draft = keep_carriers(frame, draft, asked, slack, watch)
    watch.finish_stage("hand-overs", peak, bound)
    spread = sum(trip_fractions(frame, draft))
    peak = max(trip_fractions(frame, draft), default=0)
    height = mass_ascent(frame, draft)
    changed = hand_overs(frame, draft)
    reached = (
        ("peak_load", peak, bound),
        ("fair_loads", spread, fair),
        ("mass_ascent", height, least),
        ("preferences", preferences(frame, draft, asked), 0),
        ("hand_overs", changed, 0),
    )
    return draft, tuple(_goal(*goal) for goal in reached)


def _goal(goal_id: str, value: int, bound: int | None) -> GoalValue:
    precision = FLOATING if goal_id == "mass_ascent" else 0.0
    proven = bound is not None and value - bound <= precision * value
    return GoalValue(goal_id, value, bound, proven, dict(GOAL_UNITS)[goal_id])


def _lower_trips(
    frame: Frame, draft: Draft, limits: Limits, watch: Watch, *, relaxed: RelaxedPlan | None
) -> tuple[Draft, int]:
    """Lower each trip's own largest fraction, its rides unchanged; and what that proves.

    The second value is by how much the trips whose cargo is settled must pass the relaxed's
    fractions, since their units are whole: it may be added to the bound on the sum.
    """
    fractions = trip_fractions(frame, draft)
    held_by_trip = by_trip(frame, draft)
    slack = spread_slack(frame, draft.rides())
    known: dict[Hashable, TripAnswer] = {}
    proven_more = 0
    for trip in sorted(range(len(fractions)), key=lambda t: -fractions[t]):
        held = held_by_trip[trip]
        aim = relaxed.trip_fractions[trip] if relaxed is not None else 0
        if not held or fractions[trip] * FRACTION_GRID <= aim * (FRACTION_GRID + limits.gap):
            continue
        units = riding(held)
        asked = tuple(row.rule_id for row in frame.spread_rows[trip])
        key = (_likeness(frame, trip, units), asked, slack[trip])
        if key not in known:
            if watch.left() <= 0:
                break
            known[key] = _pack_well(frame, trip, held, limits, watch, slack=slack[trip], aim=aim)
        answer = known[key]
        if answer.held is not None:
            reached = trip_fractions(frame, join_one(trip, answer.held))[trip]
            if reached < fractions[trip]:
                held_by_trip[trip] = answer.held
        if all((cargo, trip) in frame.settled for cargo in frame.allowed_cargo[trip]):
            proven_more += max(0, answer.bound - aim)
    return join(held_by_trip), proven_more


def _likeness(frame: Frame, trip: int, units: dict[int, int]) -> Hashable:
    """What makes two trips the same question."""
    able = tuple(frame.may_carry[cargo, trip] for cargo in units)
    rows = tuple(
        (row.person_id, row.of_mass, row.in_pack, row.in_sled, row.fixed, row.cap)
        for row in frame.load_rows[trip]
    )
    weights = tuple(frame.weight(cargo, trip, of_mass=True) for cargo in units)
    return (tuple(units.items()), weights, able, rows)


def _pack_well(
    frame: Frame,
    trip: int,
    held: Held,
    limits: Limits,
    watch: Watch,
    *,
    slack: Slack,
    aim: int,
) -> TripAnswer:
    """One trip packed as well as a short time allows, with a bound on its fraction."""
    units = riding(held)
    load = packed_trip(frame, trip, units, slack)
    near = aim * (FRACTION_GRID + limits.gap) // FRACTION_GRID
    reached = lower_peak(load, target=near, most_moves=150)
    before = trip_fractions(frame, join_one(trip, held))[trip]
    if reached < before:
        held = {(c, k): n for (c, _, k), n in load.carried(trip).items()}
    if not load.has_choice.any():
        return TripAnswer(held, min(reached, before), infeasible=False, proven=True)
    if min(reached, before) <= near:
        return TripAnswer(held, min(aim, reached, before), infeasible=False, proven=False)
    answer = pack_exactly(
        frame,
        trip,
        units,
        slack,
        run_within(limits, min(0.05, 0.02 * watch.left())),
        hint=held,
    )
    return (
        answer if answer.held is not None else TripAnswer(held, 0, infeasible=False, proven=False)
    )


def _less_height(relaxation: Relaxation, draft: Draft, watch: Watch) -> tuple[Draft, int | None]:
    """Carry less up where the trips' fractions allow it; with the least that any plan could."""
    if watch.left() <= 0:
        return draft, None
    frame = relaxation.frame
    fractions = trip_fractions(frame, draft)
    fixed = fixed_mass_ascent(frame)
    least = least_mass_ascent(
        relaxation, seconds=within_measure(watch, 0.3), trip_limits=fractions, start=draft.rides()
    )
    if least is None:
        return draft, None
    rides, bound = least
    bound += fixed
    now = mass_ascent(frame, draft)
    if now <= bound or fixed + ascent_of_rides(frame, rides) >= now or watch.left() <= 0:
        return draft, bound
    other = _pack_under(frame, draft, rides, fractions)
    if other is not None and mass_ascent(frame, other) < now:
        return other, bound
    return draft, bound


def _pack_under(frame: Frame, before: Draft, rides: Rides, limits: list[int]) -> Draft | None:
    """Pack trips so that each stays under its limit; None when one does not get there.

    A trip that is asked the same as in the draft before is left as it was.
    """
    held_before = by_trip(frame, before)
    slack_before, slack = spread_slack(frame, before.rides()), spread_slack(frame, rides)
    held_by_trip = []
    for trip, units in enumerate(riding_by_trip(frame, rides)):
        held = held_before[trip]
        if units != riding(held) or slack[trip] != slack_before[trip]:
            load = packed_trip(frame, trip, units, slack[trip])
            if lower_peak(load, target=limits[trip]) > limits[trip]:
                return None
            held = {(cargo, k): n for (cargo, _, k), n in load.carried(trip).items()}
        held_by_trip.append(held)
    return join(held_by_trip)
