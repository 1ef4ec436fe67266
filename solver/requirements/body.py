"""What a body needs at rest and on an ordinary day at home, with defaults for what is not given.

The equations hold for adults within a range; a body beyond it is taken at the nearest end of it,
and says so.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from solver.calculators.resting_energy import mifflin_1990_resting_kcal_per_day
from solver.calculators.total_energy import nasem_2023_kcal_per_day
from solver.problem import Person, Physique, Problem
from solver.requirements.figures import Input
from solver.requirements.surroundings import PRACTICE, as_given, as_given_or, assumed

BODY_MASS_KG = 75.0
HEIGHT_M = 1.75
AGE_YEARS = 35.0
RANGES = {"body_mass": (40.0, 150.0), "height": (1.40, 2.10), "age": (19.0, 78.0)}
"""What Mifflin and St Jeor's equation and that of the National Academies both are for."""

RESTING_FORMULA = "10 kg + 6.25 cm - 5 years + 5 (men) or - 161 (women)"
RESTING_SOURCE = "Mifflin and St Jeor 1990, Am J Clin Nutr 51:241-247; from memory, unverified"
TOTAL_FORMULA = "estimated energy requirement of an inactive adult; activity is inside it"
TOTAL_SOURCE = "National Academies 2023, Dietary Reference Intakes for Energy, doi 10.17226/26818"

_BOTH: tuple[Literal["female", "male"], ...] = ("female", "male")


@dataclass(frozen=True, slots=True)
class Body:
    """What the energy equations ask of a person; `held` says what lay beyond their range."""

    mass: Input
    height: Input
    age: Input
    sex: Input
    held: tuple[str, ...] = ()

    @property
    def inputs(self) -> tuple[Input, ...]:
        """All that the equations take."""
        return self.mass, self.height, self.age, self.sex


def read_body(problem: Problem, person: Person) -> Body:
    """A person's body; without a sex given both equations are taken and the higher counts."""
    physiques = {each.person_id: each for each in problem.conditions.physiques}
    physique = physiques.get(person.person_id, Physique(person.person_id))
    mass_kg = None if person.body_mass_g is None else person.body_mass_g / 1000
    sex = assumed("sex", "higher of both", "", f"so that food is not short: {PRACTICE}")
    if physique.sex is not None:
        sex = as_given("sex", physique.sex.value, "")
    given = (
        as_given_or("body_mass", mass_kg, BODY_MASS_KG, "kg"),
        as_given_or("height", physique.height_m, HEIGHT_M, "m"),
        as_given_or("age", physique.age_years, AGE_YEARS, "years"),
    )
    mass, height, age = (_held(one) for one in given)
    held = tuple(
        f"{one.name.replace('_', ' ')} of {one.value:g} {one.unit} is taken as {end.value:g}"
        for one, end in zip(given, (mass, height, age), strict=True)
        if one.value != end.value
    )
    return Body(mass, height, age, sex, held)


def _held(one: Input) -> Input:
    """The input, or the nearest value that both energy equations are made for."""
    low, high = RANGES[one.name]
    return replace(one, value=min(high, max(low, float(one.value))))


def resting_kcal_per_day(body: Body) -> float:
    """Energy of a day wholly at rest near sea level [kcal/day]."""
    return max(
        mifflin_1990_resting_kcal_per_day(
            sex=sex,
            body_mass_kg=float(body.mass.value),
            height_cm=float(body.height.value) * 100,
            age_years=float(body.age.value),
        )
        for sex in _sexes(body)
    )


def inactive_kcal_per_day(body: Body) -> float:
    """Energy of an ordinary day at home without exertion [kcal/day]."""
    return max(
        nasem_2023_kcal_per_day(
            sex=sex,
            age_years=float(body.age.value),
            body_mass_kg=float(body.mass.value),
            height_cm=float(body.height.value) * 100,
            activity="inactive",
        )
        for sex in _sexes(body)
    )


def _sexes(body: Body) -> tuple[Literal["female", "male"], ...]:
    return tuple(sex for sex in _BOTH if body.sex.is_default or body.sex.value == sex)
