"""Hours on the way, as the legs give them, else computed from distance and elevations."""

from __future__ import annotations

from solver.calculators.travel_time import loaded_hours, munter_hours, munter_rate
from solver.problem import Direction, Leg, Problem, Trip

SLED_FACTOR = 2.0
PACK_FACTOR = 1.5
"""How much longer sleds and packs take, where `travel_factor` is not given: an assumption."""


def given_hours(leg: Leg, direction: Direction) -> float | None:
    """What the leg gives for a direction, None where it gives nothing [h]."""
    return leg.hours_outbound if direction is Direction.OUTBOUND else leg.hours_homeward


def trip_hours(problem: Problem, trip: Trip) -> float | None:
    """Hours of a trip: the leg's own, else by Munter's units, None where neither is known [h].

    Whatever method the request names for its requirements, the rules have this one yardstick.
    It asks for the leg's distance and ascent; a descent not given is that of the two places.
    """
    leg = trip.leg
    given = given_hours(leg, trip.direction)
    if given is not None or leg.distance_m is None or leg.ascent_m is None:
        return given
    places = problem.route
    drop_m = places.place(leg.from_place).elevation_m - places.place(leg.to_place).elevation_m
    descent_m = max(0, drop_m) if leg.descent_m is None else leg.descent_m
    up_m, down_m = leg.ascent_m, descent_m
    if trip.direction is Direction.HOMEWARD:
        up_m, down_m = down_m, up_m
    share_up = up_m / (up_m + down_m) if up_m + down_m else 1.0
    km = leg.distance_m / 1000
    down = munter_rate(movement="flat_or_down_on_foot")
    up = munter_rate(movement="up_on_foot_or_ski") if up_m else down
    default = SLED_FACTOR if trip.sled_ids else PACK_FACTOR
    factor = problem.conditions.travel_factor
    try:
        unloaded = munter_hours(
            distance_km=km * share_up, height_change_m=up_m, rate_units_per_hour=up
        ) + munter_hours(
            distance_km=km * (1 - share_up), height_change_m=down_m, rate_units_per_hour=down
        )
        return loaded_hours(
            unloaded_hours=unloaded, load_factor=default if factor is None else factor
        )
    except ValueError:
        return None
