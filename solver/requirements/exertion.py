"""What one trip costs a person: walking with a load on snow, and pulling a sled."""

from __future__ import annotations

from dataclasses import dataclass

from solver.calculators.daily_energy import watts_to_kcal_per_hour
from solver.calculators.sled_pull import sled_pull_kcal_per_km
from solver.calculators.walking_energy import (
    pandolf_1977_walking_watts,
    santee_2003_descent_watts,
    terrain_factor,
)
from solver.problem import Direction, Person, Problem, Sled, Trip
from solver.requirements.body import Body
from solver.requirements.figures import Input
from solver.requirements.surroundings import PRACTICE, assumed, told, told_or
from solver.requirements.travel import Hours, Way, read_way

PLANNING_SHARE = 0.8
RETURN_SHARE = 0.3
SLED_FRICTION = 0.10
MUSCULAR_EFFICIENCY = 0.25
WALKING_W = 24.9e3 / 60
HAULING_W = 31.1e3 / 60
HALSEY = "Halsey et al. 2015, doi 10.1007/s00300-015-1818-5: measured in the cold (read)"

_LOADED = f"loads are not solved yet, so 80 % of what may be carried: {PRACTICE}"
_LIGHT = f"the way back of a carry, so 30 % of what may be carried: {PRACTICE}"


@dataclass(frozen=True, slots=True)
class Loads:
    """What somebody is taken to move on a trip; a sled mass is gross, None without a sled."""

    pack: Input
    sled: Input | None


@dataclass(frozen=True, slots=True)
class Exertion:
    """What a trip costs: gross rates over its hours, and the sled's net work on top."""

    hours: tuple[float, ...]
    kcal_per_hour: tuple[float, ...]
    sled_kcal: float
    inputs: tuple[Input, ...]

    @property
    def walking_kcal(self) -> float:
        """Energy of walking, the resting energy of its hours inside [kcal]."""
        return sum(h * rate for h, rate in zip(self.hours, self.kcal_per_hour, strict=True))


def planning_loads(problem: Problem, person: Person, trip: Trip, *, returning: bool) -> Loads:
    """Pack and sled of a trip as planned: shares of the caps; a sled goes back empty [kg]."""
    share = RETURN_SHARE if returning else PLANNING_SHARE
    caps, most_g = person.caps, person.load_limit_g
    pack_cap_g, total_g = caps.pack_on(trip.leg.mode, trip.direction), caps.total_g
    if most_g is not None:
        pack_cap_g, total_g = min(pack_cap_g, most_g), min(most_g, total_g or most_g)
    pack_kg = share * pack_cap_g / 1000
    pack = assumed("pack_load", round(pack_kg, 3), "kg", _LIGHT if returning else _LOADED)
    sled = _sled(problem, person, trip)
    if sled is None:
        return Loads(pack, None)
    if returning:
        return Loads(pack, assumed("sled_mass", sled.tare_g / 1000, "kg", "empty on the way back"))
    limit_g = min(sled.mass_limit_g, caps.sled_g) * trip.sled_factor_percent / 100
    sled_kg = PLANNING_SHARE * limit_g / 1000
    if total_g is not None:
        sled_kg = min(sled_kg, total_g / 1000 - pack_kg)
    sled_kg = max(sled_kg, sled.tare_g / 1000)
    return Loads(pack, assumed("sled_mass", round(sled_kg, 3), "kg", _LOADED))


@dataclass(frozen=True, slots=True)
class Stretch:
    """What a trip is like for whoever makes it; inputs are named by the trip's step."""

    way: Way
    hours: float
    step: str
    terrain: float
    friction: float
    inputs: tuple[Input, ...]
    sled_inputs: tuple[Input, ...]


def read_stretch(problem: Problem, trip: Trip, hours: Hours) -> Stretch:
    """The ground, time and snow of a trip, the same for everybody on it."""
    way = read_way(problem, trip.leg, trip.direction)
    step = f"_step_{trip.step}"
    shown = told("hours", hours.value, "h")
    if any(each.is_default for each in hours.inputs):
        shown = assumed("hours", hours.value, "h", "travel_time of this trip")
    terrain = terrain_factor(ground="hard_packed_snow")
    friction = told_or("sled_friction", problem.conditions.sled_friction, SLED_FRICTION, "")
    inputs = [shown]
    sled_inputs = [friction, assumed("muscular_efficiency", MUSCULAR_EFFICIENCY, "", "from memory")]
    if way.distance is None or way.grade is None:
        watts = HAULING_W if trip.sled_ids else WALKING_W
        inputs.append(assumed("measured_power", round(watts, 1), "W", HALSEY))
        sled_inputs = []
    else:
        grade = told("grade", round(100 * way.grade, 2), "%")
        snow = assumed("terrain_factor", terrain, "", f"hard-packed snow: {PRACTICE}")
        inputs += [way.distance, way.ascent, way.descent, grade, snow]
    return Stretch(
        way,
        hours.value,
        step,
        terrain,
        float(friction.value),
        tuple(_named(each, step) for each in inputs),
        tuple(_named(each, step) for each in sled_inputs),
    )


def exertion(stretch: Stretch, body: Body, loads: Loads) -> Exertion:
    """What a trip costs one person [kcal]; ValueError outside the range of a formula.

    Where the length of the leg is not told, a rate measured on people who walked or hauled in
    the cold stands in.
    """
    way = stretch.way
    if way.distance is None or way.grade is None:
        rate = watts_to_kcal_per_hour(power_w=HAULING_W if loads.sled else WALKING_W)
        return Exertion((stretch.hours,), (rate,), 0.0, stretch.inputs)
    parts = _walking(stretch, body, float(loads.pack.value))
    inputs = (*stretch.inputs, _named(loads.pack, stretch.step))
    sled_kcal = 0.0
    if loads.sled:
        sled_kcal = _sled_kcal(way, float(loads.sled.value), stretch.friction)
        inputs = (*inputs, _named(loads.sled, stretch.step), *stretch.sled_inputs)
    return Exertion(
        tuple(part_h for part_h, _ in parts),
        tuple(watts_to_kcal_per_hour(power_w=watts) for _, watts in parts),
        sled_kcal,
        inputs,
    )


def _walking(stretch: Stretch, body: Body, pack_kg: float) -> list[tuple[float, float]]:
    """Hours and power of the climbs and of the descents of a way, at one speed [h, W]."""
    way, hours, terrain = stretch.way, stretch.hours, stretch.terrain
    if way.distance is None or hours <= 0:
        raise ValueError(f"hours: {hours:g} h was given; give the time that the leg takes.")
    speed = float(way.distance.value) / (hours * 3600)
    grade = 100 * (way.grade or 0.0)
    parts: list[tuple[float, float]] = []
    if way.share_up > 0:
        watts = pandolf_1977_walking_watts(
            body_mass_kg=float(body.mass.value),
            load_kg=pack_kg,
            speed_m_per_s=speed,
            grade_percent=grade,
            terrain_factor=terrain,
        )
        parts.append((hours * way.share_up, watts))
    if way.share_up < 1:
        watts = santee_2003_descent_watts(
            body_mass_kg=float(body.mass.value),
            load_kg=pack_kg,
            speed_m_per_s=speed,
            grade_percent=-grade,
            terrain_factor=terrain,
        )
        parts.append((hours * (1 - way.share_up), watts))
    return parts


def is_return(trip: Trip, of_the_day: tuple[Trip, ...]) -> bool:
    """Whether a trip is the way down of a leg that the same person also climbs that day."""
    return trip.direction is Direction.DOWN and any(
        other.leg == trip.leg and other.direction is Direction.UP for other in of_the_day
    )


def _sled(problem: Problem, person: Person, trip: Trip) -> Sled | None:
    """The sled that a person hauls on a trip."""
    for sled in problem.sleds:
        if sled.hauler_id == person.person_id and sled.sled_id in trip.sled_ids:
            return sled
    return None


def _sled_kcal(way: Way, sled_kg: float, friction: float) -> float:
    """Net work on the sled over the climbs and the descents of a way [kcal]."""
    if way.distance is None:
        return 0.0
    km = float(way.distance.value) / 1000
    return sum(
        share
        * km
        * sled_pull_kcal_per_km(
            sled_mass_kg=sled_kg,
            friction_coefficient=friction,
            slope=slope,
            muscular_efficiency=MUSCULAR_EFFICIENCY,
        )
        for share, slope in (
            (way.share_up, way.grade or 0.0),
            (1 - way.share_up, -(way.grade or 0.0)),
        )
        if share > 0
    )


def _named(one: Input, suffix: str) -> Input:
    return Input(one.name + suffix, one.value, one.unit, one.is_default, one.source)
