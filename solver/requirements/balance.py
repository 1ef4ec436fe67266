"""What each person eats against what they need, day by day, and the body mass it takes."""

from __future__ import annotations

from dataclasses import dataclass

from solver.calculators.body_mass import FAT_SHARE, mass_lost_kg
from solver.problem import Problem
from solver.requirements.appetite import appetite_loss
from solver.requirements.body import Body
from solver.requirements.consumption import NightMeal
from solver.requirements.energy import Needs
from solver.requirements.figures import Figure, Notice, Part
from solver.requirements.surroundings import as_given, assumed

MASS_SOURCE = (
    "9440 kcal a kg of fat and 1820 of lean tissue, from memory, unverified; 61 % fat as on a cold "
    "high peak, 1.7 kg of fat and 1.1 kg of lean in 24 days, read"
)
MASS_FORMULA = "all deficits, food beyond the need set against them, / energy of a kg of body"
DEFICIT_FORMULA = (
    "over all nights, mean need of the day before and the day after - energy eaten; below 0 where "
    "the food is more than the need"
)


@dataclass(frozen=True, slots=True)
class Night:
    """One person's need and food around one night [kcal]; `off_kcal` is the need's range."""

    day: int
    need_kcal: float
    eaten_kcal: float
    off_kcal: float


def balance(problem: Problem, meals: tuple[NightMeal, ...], needs: Needs) -> Part:
    """Deficit of each person and night, and the mass that they likely lose over the trip."""
    eaten: dict[tuple[str, int], float] = {}
    for meal in meals:
        offered = meal.night_set.energy_kcal
        if offered is None:
            continue
        elevation_m = problem.route.place(meal.place_id).elevation_m
        try:
            loss = float(appetite_loss(problem, elevation_m).value)
        except ValueError:
            continue
        eaten[meal.cook_group_id, meal.day] = offered * (1 - loss)
    figures: list[Figure] = []
    notices: list[Notice] = []
    nights = len(problem.calendar.days) - 1
    for person in problem.roster:
        found = [
            _night(needs, person.person_id, day, eaten[person.cook_group_id, day])
            for day in range(1, nights + 1)
            if (person.cook_group_id, day) in eaten
        ]
        if found:
            figures.append(_deficit(person.person_id, found))
        if found and len(found) == nights:
            body = needs.bodies[person.person_id]
            figure = _mass(person.person_id, body, found)
            figures.append(figure)
            most = problem.rules.number("most_mass_loss_percent")
            notices += _advice(person.person_id, body, figure, nights, most)
    return Part(tuple(figures), tuple(notices))


def _night(needs: Needs, person_id: str, day: int, eaten_kcal: float) -> Night:
    before, after = needs.days[person_id, day], needs.days[person_id, day + 1]
    return Night(
        day,
        (before.kcal + after.kcal) / 2,
        eaten_kcal,
        (before.whole.off_kcal + after.whole.off_kcal) / 2,
    )


def _deficit(person_id: str, nights: list[Night]) -> Figure:
    """What a person lacks over the trip, night by night [kcal]."""
    lacking = [night.need_kcal - night.eaten_kcal for night in nights]
    off = sum(night.off_kcal for night in nights)
    return Figure(
        "energy_deficit",
        (("person_id", person_id),),
        sum(lacking),
        "kcal",
        DEFICIT_FORMULA,
        "figures of this answer",
        "computed",
        (
            as_given("need", round(sum(night.need_kcal for night in nights), 1), "kcal"),
            as_given("eaten", round(sum(night.eaten_kcal for night in nights), 1), "kcal"),
        ),
        low=sum(lacking) - off,
        high=sum(lacking) + off,
        most_uncertain="need",
        parts=tuple(
            (f"day_{night.day}", kcal) for night, kcal in zip(nights, lacking, strict=True)
        ),
    )


def _mass(person_id: str, body: Body, nights: list[Night]) -> Figure:
    """Mass lost over the trip, the errors of all days taken to go the same way [kg]."""
    lacking = sum(night.need_kcal - night.eaten_kcal for night in nights)
    off = sum(night.off_kcal for night in nights)
    low, middle, high = (
        mass_lost_kg(deficit_kcal=min(500_000.0, max(0.0, kcal)), fat_share=FAT_SHARE)
        for kcal in (lacking - off, lacking, lacking + off)
    )
    return Figure(
        "body_mass_lost",
        (("person_id", person_id),),
        middle,
        "kg",
        MASS_FORMULA,
        MASS_SOURCE,
        "memory-unverified",
        (
            body.mass,
            as_given("deficit", round(lacking, 1), "kcal"),
            assumed("fat_share", FAT_SHARE, "share", MASS_SOURCE),
        ),
        low,
        high,
        "need",
    )


def _advice(person_id: str, body: Body, figure: Figure, nights: int, most: float) -> list[Notice]:
    percent = 100 * figure.value / float(body.mass.value)
    if percent < most:
        return []
    return [
        Notice(
            "body_mass_loss",
            (("person_id", person_id),),
            f"{person_id} likely loses {figure.value:.1f} kg in {nights} nights, {percent:.0f} % "
            f"of {float(body.mass.value):g} kg, on what is eaten of the menu; between "
            f"{figure.low:.1f} and {figure.high:.1f} kg. Others lost 2.8 kg in 24 days on a cold "
            f"high peak. From {most:g} % on strength and warmth suffer: plan more food that gets "
            "eaten.",
        )
    ]
