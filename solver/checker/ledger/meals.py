"""What each cook group eats each night, and the lunches that follow from it."""

from __future__ import annotations

from dataclasses import dataclass

from solver.problem import NightSet, Problem, Timeline
from solver.quantities import units_up


@dataclass(frozen=True, slots=True)
class Meal:
    """A cook group's night: `people` of them use one night set each at `place_id`."""

    day: int
    cook_group_id: str
    place_id: str
    people: int
    night_set: NightSet

    @property
    def bags(self) -> int:
        """How many bags are opened; a bag is opened whole [1]."""
        return units_up(amount=self.people, per_unit=self.night_set.sets_per_bag)

    @property
    def packaging_g(self) -> int:
        """What stays behind as trash [g]."""
        return self.people * self.night_set.packaging_g


def read_meals(problem: Problem, timeline: Timeline) -> tuple[Meal, ...]:
    """All meals, night by night and in the order of the cook groups."""
    meals: list[Meal] = []
    for night in timeline.nights:
        sleeps_at = dict(night.sleeps_at)
        for group in problem.cook_groups:
            people = [
                person
                for person in problem.everybody
                if person.cook_group_id == group.cook_group_id and person.person_id in sleeps_at
            ]
            if not people:
                continue
            place_id = sleeps_at[people[0].person_id]
            set_id = group.set_id_on(night.day, place_id)
            meals.append(
                Meal(
                    day=night.day,
                    cook_group_id=group.cook_group_id,
                    place_id=place_id,
                    people=len(people),
                    night_set=problem.night_set(group.cook_group_id, set_id),
                )
            )
    return tuple(meals)


def read_lunches(problem: Problem, meals: tuple[Meal, ...]) -> dict[tuple[str, int], int]:
    """The lunch that each person carries on each trip of a day, by person and day [g]."""
    lunches = {(p.person_id, 1): p.first_lunch_g for p in problem.everybody}
    for meal in meals:
        for person in problem.everybody:
            eats = person.presence.sleeps_on(meal.day)
            if eats and person.cook_group_id == meal.cook_group_id:
                lunches[person.person_id, meal.day + 1] = meal.night_set.lunch_g
    return lunches
