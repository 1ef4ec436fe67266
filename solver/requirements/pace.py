"""Whether the hours of a leg leave its work within what a body keeps up at that elevation."""

from __future__ import annotations

from dataclasses import dataclass

from solver.calculators.aerobic_ceiling import aerobic_ceiling_kcal_per_hour
from solver.problem import Conditions, Problem, Sex, Trip
from solver.requirements.body import Body
from solver.requirements.exertion import Exertion
from solver.requirements.figures import Notice
from solver.requirements.surroundings import PRACTICE

UPTAKE_ML = {Sex.MALE: 45.0, Sex.FEMALE: 38.0}
UPTAKE_NOT_KNOWN_ML = 42.0
KEPT_UP = 0.5
SHORTEST_H = 1.0
HIGHEST_M, LOWEST_M = 8849, -430


@dataclass(frozen=True, slots=True)
class Pace:
    """How hard a trip is for one person: share of the ceiling, and hours at which it is kept up."""

    person_id: str
    share: float
    hours: float
    enough_h: float


def pace(
    problem: Problem, trip: Trip, body: Body, effort: Exertion, person_id: str, *, resting: float
) -> Pace | None:
    """The pace of a trip at its higher end; None without work or for less than an hour.

    For less than an hour people keep up more than half of their ceiling.
    """
    work = effort.walking_kcal + effort.sled_kcal
    if effort.hours < SHORTEST_H or work <= 0:
        return None
    higher_m = max(
        problem.route.place(place_id).elevation_m for place_id in (trip.from_place, trip.to_place)
    )
    ceiling = aerobic_ceiling_kcal_per_hour(
        body_mass_kg=float(body.mass.value),
        uptake_ml_per_kg_min=_uptake(problem.conditions, person_id),
        elevation_m=min(HIGHEST_M, max(LOWEST_M, higher_m)),
    )
    spare = KEPT_UP * ceiling - resting
    net = max(0.0, work - resting * effort.hours)
    enough_h = net / spare if spare > 0 else 24.0
    return Pace(person_id, work / effort.hours / ceiling, effort.hours, enough_h)


def too_fast(trip: Trip, worst: Pace) -> Notice:
    """That the hours of a leg ask more of somebody than is kept up."""
    return Notice(
        "pace_above_ceiling",
        (("leg_id", trip.leg.leg_id), ("direction", trip.direction.value)),
        f"Leg {trip.leg.leg_id} {trip.direction.value} in {worst.hours:.1f} h asks "
        f"{100 * worst.share:.0f} % of what {worst.person_id} can spend at that elevation; about "
        f"{100 * KEPT_UP:.0f} % is kept up for hours ({PRACTICE}). Give it {worst.enough_h:.1f} h "
        "or a lighter load. Highest oxygen uptake is assumed by sex, 45 and 38 mL/(kg min), and "
        "falls 10 % for each 1000 m above 1200 m.",
    )


def _uptake(conditions: Conditions, person_id: str) -> float:
    for physique in conditions.physiques:
        if physique.person_id == person_id and physique.sex is not None:
            return UPTAKE_ML[physique.sex]
    return UPTAKE_NOT_KNOWN_ML
