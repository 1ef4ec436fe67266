"""What somebody is taken to move on a trip, before any plan has shared the loads out."""

from __future__ import annotations

from dataclasses import dataclass

from solver.problem import LegMode, Person, Problem, Trip
from solver.requirements.figures import Input
from solver.requirements.surroundings import PRACTICE, assumed

PLANNING_SHARE = 0.8
RETURN_SHARE = 0.3
SUMMIT_SHARE = 0.3

_LOADED = f"loads are not solved yet, so 80 % of what may be carried: {PRACTICE}"
_LIGHT = f"the way back of a carry, so 30 % of what may be carried: {PRACTICE}"
_SUMMIT = f"a summit day, so 30 % of what may be carried: {PRACTICE}"


@dataclass(frozen=True, slots=True)
class Loads:
    """What somebody is taken to move on a trip; a sled mass is gross, None without a sled."""

    pack: Input
    sled: Input | None


def planning_loads(problem: Problem, person: Person, trip: Trip, *, returning: bool) -> Loads:
    """Pack and sled of a trip as planned: shares of the caps; a sled goes back empty [kg].

    Of a sled with two haulers each pulls their share.
    """
    share, why = PLANNING_SHARE, _LOADED
    if trip.leg.mode is LegMode.SUMMIT:
        share, why = SUMMIT_SHARE, _SUMMIT
    elif returning:
        share, why = RETURN_SHARE, _LIGHT
    pack_cap_g, total_g = person.caps.pack_on(trip.leg.mode, trip.direction), person.caps.total_g
    most_g = person.load_limit_g
    if most_g is not None:
        pack_cap_g, total_g = min(pack_cap_g, most_g), min(most_g, total_g or most_g)
    pack_kg = share * pack_cap_g / 1000
    pack = assumed("pack_load", round(pack_kg, 3), "kg", why)
    for sled in problem.sleds:
        pulled = dict(sled.shares()).get(person.person_id)
        if pulled and sled.sled_id in trip.sled_ids:
            tare_kg = pulled / 100 * sled.tare_g / 1000
            if returning:
                empty = assumed("sled_mass", round(tare_kg, 3), "kg", "empty on the way back")
                return Loads(pack, empty)
            limit_g = min(pulled / 100 * sled.mass_limit_g, person.caps.sled_g)
            sled_kg = PLANNING_SHARE * limit_g * trip.sled_factor_percent / 100_000
            if total_g is not None:
                sled_kg = min(sled_kg, total_g / 1000 - pack_kg)
            return Loads(pack, assumed("sled_mass", round(max(sled_kg, tare_kg), 3), "kg", _LOADED))
    return Loads(pack, None)
