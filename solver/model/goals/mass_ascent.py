"""The third goal: mass carried times ascent, summed over the trips that lead up.

Here units change the trip that they ride on, as far as no trip's load fraction grows.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from solver.model.assignment.by_trip import by_trip, join, riding, riding_by_trip
from solver.model.assignment.draft import Draft
from solver.model.assignment.load_fractions import peak_of, trip_fractions
from solver.model.formulation.ascent import ascent_m
from solver.model.formulation.flow_row import Rides
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import spread_slack
from solver.model.goals.goal import SearchState, SearchTools
from solver.model.packing.longest_first import packed_trip
from solver.model.packing.swaps import lower_peak
from solver.model.run import bound_seconds
from solver.model.solvers.relaxation import least_mass_ascent
from solver.quantities import FRACTION_GRID
from solver.rulebook.goals import HARD_FROM


def value(frame: Frame, draft: Draft) -> int:
    """Everything in packs and on sleds times the ascent of its trips [g·m]."""
    return _fixed(frame) + _of_rides(frame, draft.rides())


def bound(state: SearchState) -> int | None:
    """A bound for plans of which no trip has a larger load fraction [g·m]."""
    return state.bounds.get("mass_ascent")


def improve(state: SearchState, tools: SearchTools) -> SearchState:
    """Carry less up where the trips' fractions allow it.

    From here on a hard trip may be as full as it is now. Another may be a little fuller, within the
    tolerance of the limits, and a light one may fill up to the share that the limits give; but no
    trip gets above the peak.
    """
    peak = peak_of(tools.frame, state.draft)
    draft, least = _less_ascent(state.draft, tools)
    limits = within_tolerance(
        trip_fractions(tools.frame, draft),
        peak=peak,
        tolerance=tools.limits.tolerance,
        light=tools.limits.light_trip_share,
    )
    return replace(state, draft=draft, trip_limits=limits).with_bound("mass_ascent", least)


def within_tolerance(
    fractions: Sequence[int], *, peak: int, tolerance: int, light: int
) -> tuple[int, ...]:
    """Each fraction raised by the tolerance and at least to `light`, never above the peak.

    A hard trip stays as full as it is: the tolerance does not lift one above what is not hard, or
    above `light` where that is more. All are in 1/10,000.
    """
    free = max(light, HARD_FROM)
    return tuple(
        max(
            fraction,
            min(peak, free, max(light, fraction + fraction * tolerance // FRACTION_GRID)),
        )
        for fraction in fractions
    )


def _less_ascent(draft: Draft, tools: SearchTools) -> tuple[Draft, int | None]:
    """A draft with less mass × ascent where there is one, and a lower bound."""
    frame, watch = tools.frame, tools.watch
    if watch.left() <= 0:
        return draft, None
    fractions = trip_fractions(frame, draft)
    fixed = _fixed(frame)
    least = least_mass_ascent(
        tools.relaxation,
        seconds=bound_seconds(watch, 0.3),
        trip_limits=fractions,
        start=draft.rides(),
    )
    if least is None:
        return draft, None
    rides, proven = least
    proven += fixed
    now = value(frame, draft)
    if now <= proven or fixed + _of_rides(frame, rides) >= now or watch.left() <= 0:
        return draft, proven
    other = _pack_under(frame, draft, rides, fractions)
    return (other if other is not None and value(frame, other) < now else draft), proven


def _pack_under(frame: Frame, before: Draft, rides: Rides, limits: list[int]) -> Draft | None:
    """Pack trips so that each stays under its limit; None when one does not get there.

    A trip that has the same units as in the draft before is left as it was.
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
            held = load.held()
        held_by_trip.append(held)
    return join(held_by_trip)


def _of_rides(frame: Frame, rides: Rides) -> int:
    """The part of mass × ascent that rides make [g·m]."""
    ascents_m = [ascent_m(frame, trip) for trip in range(len(frame.carriers))]
    return sum(
        units * frame.weight(cargo, trip, of_mass=True) * ascents_m[trip]
        for (cargo, trip), units in rides.items()
        if ascents_m[trip]
    )


def _fixed(frame: Frame) -> int:
    """The part of mass × ascent that no plan changes: water, lunch and sleds [g·m]."""
    world = frame.world
    tare_g = {sled.sled_id: sled.tare_g for sled in world.problem.sleds}
    total = 0
    for trip in world.timeline.trips:
        if world.problem.is_over(trip.day):
            continue
        on_body_g = sum(
            world.water_g[trip.day, person] + world.lunch_g.get((trip.day, person), 0)
            for person in trip.person_ids
        )
        on_sleds_g = sum(tare_g[sled_id] for sled_id in trip.sled_ids)
        total += (on_body_g + on_sleds_g) * ascent_m(frame, trip.index)
    return total
