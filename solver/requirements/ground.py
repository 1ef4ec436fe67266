"""Ground and time of a trip; what a leg leaves open is assumed and shown."""

from __future__ import annotations

from dataclasses import dataclass

from solver.problem import Direction, LegMode, Problem, Trip
from solver.requirements.figures import Input
from solver.requirements.surroundings import PRACTICE, as_given, assumed
from solver.requirements.travel import Hours, Way, read_way

TYPICAL_GRADE = {
    LegMode.SLED: 0.09,
    LegMode.PACK: 0.25,
    LegMode.FIXED_ROPE: 0.35,
    LegMode.SUMMIT: 0.22,
}
"""Metres climbed or lost a metre of distance, where a leg does not say how long it is."""

LEAST_KM_H, FLAT_KM_H, MOST_KM_H = 0.2, 2.0, 3.5
LOADED_KM_H, LOADED_CLIMB_M_H = 2.5, 200.0


@dataclass(frozen=True, slots=True)
class Ground:
    """What a trip crosses, the same for everybody on it; inputs are named by the trip's step.

    `distance_given` is whether the leg says how long it is; `notice` says what had to be assumed.
    """

    distance_km: float
    ascent_m: float
    descent_m: float
    hours: float
    distance_given: bool
    inputs: tuple[Input, ...]
    notice: str = ""


def read_ground(problem: Problem, trip: Trip, hours: Hours | None) -> Ground:
    """Distance, climb and time of a trip, each given or assumed."""
    way = read_way(problem, trip.leg, trip.direction)
    climbed_m = float(way.ascent.value) + float(way.descent.value)
    notice = ""
    if hours is None:
        km = 0.0 if way.distance is None else float(way.distance.value) / 1000
        km = km or climbed_m / TYPICAL_GRADE[trip.leg.mode] / 1000
        time = max(0.5, km / LOADED_KM_H + climbed_m / LOADED_CLIMB_M_H)
        shown = assumed("hours", round(time, 2), "h", f"km / 2.5 + m / 200: {PRACTICE}")
        notice = f"its time is taken as {time:.1f} h"
    else:
        time = hours.value
        shown = as_given("hours", time, "h")
        if any(each.is_default for each in hours.inputs):
            shown = assumed("hours", time, "h", "travel_time of this trip")
    distance = way.distance or _assumed_distance(trip.leg.mode, climbed_m, time)
    km = float(distance.value) / 1000
    return Ground(
        km,
        float(way.ascent.value),
        float(way.descent.value),
        time,
        way.distance is not None,
        (shown, distance, *_climbs(way, km, climbed_m)),
        notice,
    )


def _climbs(way: Way, km: float, climbed_m: float) -> tuple[Input, ...]:
    grade = round(climbed_m / 10 / km, 2) if km else 0.0
    return way.ascent, way.descent, as_given("grade", grade, "%")


def _assumed_distance(mode: LegMode, climbed_m: float, hours: float) -> Input:
    """Length from the climb and a typical slope, within what can be walked in the time [m]."""
    km = climbed_m / TYPICAL_GRADE[mode] / 1000 if climbed_m else FLAT_KM_H * hours
    km = min(MOST_KM_H * hours, max(LEAST_KM_H * hours, km))
    source = (
        f"climb and descent at {TYPICAL_GRADE[mode]:.0%} on such legs, or {FLAT_KM_H:g} km/h on "
        f"the flat; it may be half or twice that: {PRACTICE}"
    ).replace("%", " %")
    return assumed("distance", round(1000 * km), "m", source)


def is_return(trip: Trip, of_the_day: tuple[Trip, ...]) -> bool:
    """Whether a trip is the way down of a leg that the same person also climbs that day."""
    return trip.direction is Direction.HOMEWARD and any(
        other.leg == trip.leg and other.direction is Direction.OUTBOUND for other in of_the_day
    )
