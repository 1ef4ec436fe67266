"""Energy and mass of the food that is eaten, held against what people need where they eat it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from solver.calculators.food_energy import energy_density_kcal_per_g
from solver.calculators.ration_check import energy_shortfall_kcal, ration_target_kcal
from solver.problem import NightSet, Person, Problem, Timeline
from solver.requirements.appetite import SOURCE as APPETITE_SOURCE
from solver.requirements.appetite import appetite_loss
from solver.requirements.balance import balance
from solver.requirements.consumption import NightMeal, night_meals
from solver.requirements.energy import Needs, read_needs
from solver.requirements.figures import About, Figure, Input, Notice, Part
from solver.requirements.surroundings import PRACTICE, as_given, assumed, out_of_range

LEAST_FOOD_G = 700
MOST_FOOD_G = 1150

TARGET_SOURCE = (
    "targets and elevation bands of the rule energy_on_target: low down read in accounts of guided "
    f"trips, the others {PRACTICE}"
)
_SETTINGS = {"low": "low", "mid": "middle", "high": "high", "storm": "storm"}
NEED_SOURCE = (
    "day_energy, the mean of the people over the day before the night and the day after, since "
    "dinner follows the one and breakfast and lunch feed the other; as far as they are known"
)


@dataclass(frozen=True, slots=True)
class Meal:
    """A night's food of one person in numbers; the need is None where it could not be computed."""

    night: NightMeal
    offered_kcal: float
    eaten_kcal: float
    loss: Input
    target_kcal: tuple[float, float]
    need_kcal: float | None

    @property
    def about(self) -> About:
        """Which night, place, cook group and set."""
        night = self.night
        return (
            ("day", night.day),
            ("place_id", night.place_id),
            ("cook_group_id", night.cook_group_id),
            ("set_id", night.night_set.set_id),
        )

    @property
    def missing_kcal(self) -> float:
        """By how much what is eaten misses the need [kcal]."""
        if self.need_kcal is None:
            return 0.0
        return energy_shortfall_kcal(eaten_kcal=self.eaten_kcal, need_kcal=self.need_kcal)


def food(problem: Problem, timeline: Timeline) -> Part:
    """Energy of each night's food, its share of target and need, and the mass of each set."""
    figures: list[Figure] = []
    notices: list[Notice] = []
    needs = read_needs(problem, timeline)
    nights = night_meals(problem, timeline)
    meals: list[Meal] = []
    eaters = {
        group.cook_group_id: problem.members(group.cook_group_id) for group in problem.cook_groups
    }
    for night in nights:
        if night.night_set.energy_kcal is None:
            continue
        try:
            meals.append(_read(problem, night, eaters[night.cook_group_id], needs))
        except ValueError as error:
            about = (("day", night.day), ("place_id", night.place_id))
            notices.append(out_of_range("ration_energy", about, error))
    for meal in meals:
        figures += _of_meal(problem, meal)
    notices += _short(meals)
    eaten = balance(problem, nights, needs)
    figures += eaten.figures
    notices += eaten.notices
    for night_set in dict.fromkeys(night.night_set for night in nights):
        made, remarks = _of_set(night_set)
        figures += made
        notices += remarks
    if nights:
        notices.append(_allergen_caution())
    return Part(tuple(figures), tuple(notices))


def _read(problem: Problem, night: NightMeal, eaters: tuple[Person, ...], needs: Needs) -> Meal:
    """A night's food held against the elevation of its place and the days around it."""
    offered_kcal = float(night.night_set.energy_kcal or 0)
    elevation_m = problem.route.place(night.place_id).elevation_m
    loss = appetite_loss(problem, elevation_m)
    band = "storm" if night.night_set.storm else problem.rules.elevation_band(elevation_m)
    low_kcal = float(problem.rules.whole(f"{_SETTINGS[band]}_energy_kcal"))
    days = [
        needs.days[person.person_id, day].kcal
        for person in eaters
        for day in (night.day, night.day + 1)
        if (person.person_id, day) in needs.days
    ]
    return Meal(
        night=night,
        offered_kcal=offered_kcal,
        eaten_kcal=offered_kcal * (1 - float(loss.value)),
        loss=loss,
        target_kcal=(low_kcal, max(low_kcal, ration_target_kcal(ration=band, bound="high"))),
        need_kcal=sum(days) / len(days) if days else None,
    )


def _of_meal(problem: Problem, meal: Meal) -> Iterator[Figure]:
    elevation_m = problem.route.place(meal.night.place_id).elevation_m
    offered = as_given("set_energy", meal.offered_kcal, "kcal")
    elevation = as_given("elevation", elevation_m, "m")
    yield Figure(
        "ration_energy",
        meal.about,
        meal.eaten_kcal,
        "kcal/person-day",
        "energy of the set × (1 - appetite loss)",
        APPETITE_SOURCE,
        "read",
        (offered, meal.loss, elevation),
    )
    low, high = meal.target_kcal
    yield Figure(
        "ration_share",
        meal.about,
        100 * meal.offered_kcal / low,
        "%",
        "energy of the set / low end of the target at that elevation",
        TARGET_SOURCE,
        "practice",
        (
            offered,
            elevation,
            assumed("target_low", low, "kcal/person-day", TARGET_SOURCE),
            assumed("target_high", high, "kcal/person-day", TARGET_SOURCE),
        ),
    )
    if meal.need_kcal:
        yield Figure(
            "ration_need_share",
            meal.about,
            100 * meal.eaten_kcal / meal.need_kcal,
            "%",
            "energy eaten / energy needed",
            NEED_SOURCE,
            "practice",
            (
                offered,
                meal.loss,
                assumed("need", round(meal.need_kcal, 1), "kcal/person-day", NEED_SOURCE),
            ),
        )


def _short(meals: list[Meal]) -> Iterator[Notice]:
    """One notice for each place, group, set and reason, about its worst night."""
    by_stay: dict[tuple[str, str, str], list[Meal]] = {}
    for meal in meals:
        night = meal.night
        key = (night.place_id, night.cook_group_id, night.night_set.set_id)
        by_stay.setdefault(key, []).append(meal)
    for (place_id, _, _), stay in by_stay.items():
        lacking = [meal for meal in stay if meal.missing_kcal > 0]
        if lacking:
            worst = max(lacking, key=lambda meal: meal.missing_kcal)
            need_kcal = worst.need_kcal or 0.0
            left = f" ({float(worst.loss.value):.0%} left uneaten aloft)".replace("%", " %")
            yield Notice(
                "ration_short",
                worst.about,
                f"{place_id}, day {worst.night.day}: {worst.eaten_kcal:.0f} kcal"
                f"{left if worst.loss.value else ''} against a need of about "
                f"{round(need_kcal, -2):.0f} kcal; deficit "
                f"{100 * worst.missing_kcal / need_kcal:.0f} %{_more(lacking)}.",
            )
        below = [meal for meal in stay if meal.offered_kcal < meal.target_kcal[0]]
        if below:
            first = below[0]
            low, high = first.target_kcal
            yield Notice(
                "ration_below_target",
                first.about,
                f"{place_id}, day {first.night.day}: the set {first.night.night_set.set_id} "
                f"offers {first.offered_kcal:.0f} kcal, below the {low:.0f} to {high:.0f} kcal "
                f"that parties plan for at that elevation ({PRACTICE}){_more(below)}.",
            )


def _more(meals: list[Meal]) -> str:
    return f"; so it is on {len(meals)} nights there" if len(meals) > 1 else ""


def _of_set(night_set: NightSet) -> tuple[list[Figure], list[Notice]]:
    """Net food of one set: its mass in the usual band, its energy a gram."""
    about = (("cook_group_id", night_set.cook_group_id), ("set_id", night_set.set_id))
    food_g = night_set.gross_g - night_set.packaging_g
    gross = as_given("gross", night_set.gross_g, "g")
    packaging = as_given("packaging", night_set.packaging_g, "g")
    notices: list[Notice] = []
    figures = [
        Figure(
            "ration_mass",
            about,
            food_g / 1000,
            "kg/person-day",
            "gross - packaging",
            f"0.70 to 1.15 kg a person and day is usual: {PRACTICE}",
            "practice",
            (gross, packaging),
        )
    ]
    if not LEAST_FOOD_G <= food_g <= MOST_FOOD_G:
        notices.append(
            Notice(
                "ration_mass_unusual",
                about,
                f"The set {night_set.set_id} holds {food_g / 1000:.2f} kg of food a person and "
                f"day without packaging; 0.70 to 1.15 kg is usual ({PRACTICE}).",
            )
        )
    energy_kcal = night_set.energy_kcal
    if energy_kcal is None:
        notices.append(
            Notice(
                "ration_energy_unknown",
                about,
                f"The set {night_set.set_id} has no energy, so no ration can be checked against "
                "a need. Give its energy.",
            )
        )
        return figures, notices
    try:
        density = energy_density_kcal_per_g(energy_kcal=energy_kcal, mass_g=food_g)
    except ValueError as error:
        return figures, [*notices, out_of_range("ration_density", about, error)]
    figures.append(
        Figure(
            "ration_density",
            about,
            density,
            "kcal/g",
            "energy / (gross - packaging)",
            "definition",
            "computed",
            (as_given("set_energy", energy_kcal, "kcal"), gross, packaging),
        )
    )
    return figures, notices


def _allergen_caution() -> Notice:
    return Notice(
        "food_allergens",
        (),
        "No food is checked for allergens or for anyone's diet. Ask each person, read each "
        "label, and keep what could harm somebody out of shared kitchens.",
        is_caution=True,
    )
