"""The goals after the peak: everybody's loads trip by trip, mass × height, hand-overs.

Each keeps what the goals before reached, the last within the tolerance that the limits name.
"""

from __future__ import annotations

from solver.model.exact_trip import pack_exactly
from solver.model.frame import Frame
from solver.model.keeping import keep_carriers, keeping_limits
from solver.model.loads import fixed_mass_height, hand_overs, mass_height, trip_fractions
from solver.model.master import Master, least_mass_height
from solver.model.packing import empty_trip, longest_first
from solver.model.read_plan import Draft
from solver.model.search_steps import Rides, by_trip, join, riding, riding_by_trip
from solver.model.solve_one_piece import Run
from solver.model.swaps import lower_peak
from solver.outcome import Limits
from solver.plan import GoalValue
from solver.progress import Watch
from solver.quantities import FRACTION_GRID

FLOATING = 1e-6
"""What a bound on mass × height may lack for its floating point, as a share [1]."""


def improve_later_goals(
    master: Master, draft: Draft, limits: Limits, watch: Watch, *, bound: int, fair: int | None
) -> tuple[Draft, tuple[GoalValue, ...]]:
    """The draft after the later goals, and all four goal values in order.

    `bound` is on the peak, `fair` on the sum of the trips' fractions where one is known.
    """
    frame = master.frame
    peak = max(trip_fractions(frame, draft), default=0)
    draft = _lower_trips(frame, draft, limits, watch, enough=fair)
    watch.finish_stage("fair loads", peak, bound)
    draft, least = _less_height(master, draft, watch)
    watch.finish_stage("mass by height", peak, bound)
    draft = keep_carriers(frame, draft, keeping_limits(frame, draft, peak, limits.tolerance))
    watch.finish_stage("hand-overs", peak, bound)
    spread = sum(trip_fractions(frame, draft))
    height = mass_height(frame, draft)
    changed = hand_overs(frame, draft)
    return draft, (
        _goal("peak_load", peak, bound, "1/10000 of the cap"),
        _goal("fair_loads", spread, fair, "1/10000 of the cap, summed over trips"),
        _goal("mass_height", height, least, "g m", precision=FLOATING),
        _goal("hand_overs", changed, 0, "units"),
    )


def _goal(
    goal_id: str, value: int, bound: int | None, unit: str, precision: float = 0.0
) -> GoalValue:
    proven = bound is not None and value - bound <= precision * value
    return GoalValue(goal_id, value, bound, proven, unit)


def _lower_trips(
    frame: Frame, draft: Draft, limits: Limits, watch: Watch, *, enough: int | None
) -> Draft:
    """Lower each trip's own largest fraction, its rides unchanged, until the sum is enough."""
    fractions = trip_fractions(frame, draft)
    held_by_trip = by_trip(frame, draft)
    for trip in sorted(range(len(fractions)), key=lambda t: -fractions[t]):
        close = enough is not None and sum(fractions) * FRACTION_GRID <= enough * (
            FRACTION_GRID + limits.gap
        )
        held = held_by_trip[trip]
        if close or watch.left() <= 0 or not held:
            continue
        units = riding(held)
        load = empty_trip(frame, trip, units)
        longest_first(load)
        reached = lower_peak(load, target=0)
        if reached < fractions[trip]:
            held_by_trip[trip] = {(c, k): n for (c, _, k), n in load.carried(trip).items()}
            fractions[trip] = reached
        if not load.has_choice.any():
            continue
        answer = pack_exactly(
            frame,
            trip,
            units,
            Run(min(0.2, 0.02 * watch.left()), limits.workers, limits.seed),
            hint=held_by_trip[trip],
        )
        if answer.held is not None:
            held_by_trip[trip] = answer.held
            fractions[trip] = trip_fractions(frame, join(held_by_trip))[trip]
    return join(held_by_trip)


def _less_height(master: Master, draft: Draft, watch: Watch) -> tuple[Draft, int | None]:
    """Carry less up where the trips' fractions allow it; with the least that any plan could."""
    frame = master.frame
    fractions = trip_fractions(frame, draft)
    fixed = fixed_mass_height(frame)
    least = least_mass_height(
        master, seconds=0.3 * watch.left(), trip_limits=fractions, start=draft.rides()
    )
    if least is None:
        return draft, None
    rides, bound = least
    bound += fixed
    now = mass_height(frame, draft)
    if now <= bound or watch.left() <= 0:
        return draft, bound
    other = _pack_under(frame, rides, fractions)
    if other is not None and mass_height(frame, other) < now:
        return other, bound
    return draft, bound


def _pack_under(frame: Frame, rides: Rides, limits: list[int]) -> Draft | None:
    """Pack trips so that each stays under its limit; None when one does not get there."""
    carried: dict[tuple[int, int, str], int] = {}
    for trip, units in enumerate(riding_by_trip(frame, rides)):
        load = empty_trip(frame, trip, units)
        longest_first(load)
        if lower_peak(load, target=limits[trip]) > limits[trip]:
            return None
        carried |= load.carried(trip)
    return Draft(carried)
