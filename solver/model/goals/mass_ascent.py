"""The third goal: mass carried times ascent, summed over the trips that lead up.

Here units change the trip that they ride on, as far as no hard trip's load fraction grows. A light
trip may fill up to the share at which trips begin to be hard.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from solver.model.assignment.by_trip import by_trip, join, riding, riding_by_trip
from solver.model.assignment.draft import Draft, Held
from solver.model.assignment.load_fractions import peak_of, trip_fractions
from solver.model.formulation.ascent import ascent_m
from solver.model.formulation.flow_row import Rides
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import spread_slack
from solver.model.goals.empties_wait import empties_wait
from solver.model.goals.goal import SearchState, SearchTools
from solver.model.packing.longest_first import packed_trip
from solver.model.packing.swaps import lower_peak
from solver.model.run import bound_seconds, run_within
from solver.model.solvers.exact_trip import pack_exactly
from solver.model.solvers.relaxation import least_mass_ascent
from solver.quantities import FRACTION_GRID
from solver.rulebook.goals import HARD_FROM

_TRIES, _TIGHTER = 4, 15
"""How often rides are looked for [1], and by how much less full a trip that could not be packed is
asked to be the next time [1/10,000]."""

_EXACT_SECONDS = 0.2
"""Work for one trip that moves and swaps do not bring under its limit [s of a steady run]."""


def value(frame: Frame, draft: Draft) -> int:
    """Everything in packs and on sleds times the ascent of its trips [g·m]."""
    return _fixed(frame) + _of_rides(frame, draft.rides())


def bound(state: SearchState) -> int | None:
    """A bound for plans of which no trip has a larger load fraction [g·m]."""
    return state.bounds.get("mass_ascent")


def improve(state: SearchState, tools: SearchTools) -> SearchState:
    """Carry less up where the trips' fractions allow it.

    From here on a trip may be a little fuller, within the tolerances of the limits, and a light one
    may fill up to the share that the limits give; but no trip gets above the peak. Last, empty
    containers wait where they were emptied, unless a former plan is given.
    """
    peak = peak_of(tools.frame, state.draft)
    draft, least = _less_ascent(state.draft, tools)
    limits = limits_of_trips(draft, tools, peak)
    if tools.frame.former is None:
        waiting = empties_wait(tools.frame, draft, limits)
        if value(tools.frame, waiting) <= value(tools.frame, draft):
            draft = waiting
    return replace(state, draft=draft, trip_limits=limits).with_bound("mass_ascent", least)


def limits_of_trips(draft: Draft, tools: SearchTools, peak: int) -> tuple[int, ...]:
    """How full each trip of a draft may get from here on [1/10,000]."""
    return within_tolerance(
        trip_fractions(tools.frame, draft),
        peak=peak,
        tolerance=tools.limits.tolerance,
        light=tools.limits.light_trip_share,
        hard=max(tools.limits.gap, tools.limits.hard_tolerance),
    )


def within_tolerance(
    fractions: Sequence[int], *, peak: int, tolerance: int, light: int, hard: int = 0
) -> tuple[int, ...]:
    """Each fraction raised by the tolerance and at least to `light`, never above the peak.

    The tolerance does not lift one above what is not hard, or above `light` where that is more. A
    hard trip rises by `hard` alone. All are in 1/10,000.
    """
    free = max(light, HARD_FROM)
    return tuple(
        max(
            fraction,
            min(peak, free, max(light, _more(fraction, tolerance))),
            min(peak, _more(fraction, hard)) if fraction > free else 0,
        )
        for fraction in fractions
    )


def _more(fraction: int, by: int) -> int:
    return fraction + fraction * by // FRACTION_GRID


def _less_ascent(draft: Draft, tools: SearchTools) -> tuple[Draft, int | None]:
    """A draft with less mass × ascent where there is one, and a lower bound.

    Where a trip cannot be packed, it is asked to be less full, and the rides are found again.
    """
    frame, watch = tools.frame, tools.watch
    fractions, fixed, now = trip_fractions(frame, draft), _fixed(frame), value(frame, draft)
    free = min(peak_of(frame, draft), max(HARD_FROM, tools.limits.light_trip_share))
    proven: int | None = None
    asked = list(fractions)
    for _ in range(_TRIES):
        if watch.left() <= 0:
            break
        least = least_mass_ascent(
            tools.relaxation,
            seconds=bound_seconds(watch, 0.3),
            trip_limits=asked,
            start=draft.rides(),
        )
        if least is None:
            break
        rides, bound = least
        proven = fixed + bound if proven is None else proven
        if now <= proven or fixed + _of_rides(frame, rides) >= now:
            break
        other = pack_under(tools, draft, rides, fractions, free)
        if isinstance(other, Draft):
            return other, proven
        fair = tools.relaxed.fair
        reached = 0 if fair is None else fair.trip_fractions[other]
        asked[other] = max(asked[other] - _TIGHTER, min(reached, asked[other] - 1))
    return draft, proven


def pack_under(
    tools: SearchTools, before: Draft, rides: Rides, limits: list[int], free: int
) -> Draft | int:
    """Pack trips so that each stays under its limit, or under `free` where that is more.

    A trip that has the same units as in the draft before is left as it was. The number of a trip
    that does not get there ends it.
    """
    frame, watch = tools.frame, tools.watch
    held_before = by_trip(frame, before)
    slack_before, slack = spread_slack(frame, before.rides()), spread_slack(frame, rides)
    held_by_trip = []
    for trip, units in enumerate(riding_by_trip(frame, rides)):
        held: Held | None = held_before[trip]
        if units != riding(held_before[trip]) or slack[trip] != slack_before[trip]:
            load, most = packed_trip(frame, trip, units, slack[trip]), max(limits[trip], free)
            if lower_peak(load, target=limits[trip]) > most:
                run = run_within(tools.limits, min(_EXACT_SECONDS, 0.05 * watch.left()), watch)
                held = pack_exactly(frame, trip, units, slack[trip], run, enough=most).held
            else:
                held = load.held()
        if held is None:
            return trip
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
