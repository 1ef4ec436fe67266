"""Nights on which a cook group that burns fuel begins a stay, and the containers it has there."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from solver.checker.ledger.meals import Meal
from solver.checker.ledger.replay import Replay
from solver.checker.ledger.times import after_night
from solver.checker.queries.holdings import fuel_ml
from solver.checker.queries.kitchens import burnt_for
from solver.checker.queries.telling import Where


@dataclass(frozen=True, slots=True)
class Arrival:
    """The first night of a stay; fuel in each container there before it is used [mL]."""

    meal: Meal
    containers_ml: tuple[int, ...]

    @property
    def words(self) -> str:
        """The night in words."""
        meal = self.meal
        return f"cook group {meal.cook_group_id} on the night of day {meal.day} at {meal.place_id}"

    @property
    def where(self) -> Where:
        """The night as (name, value) pairs."""
        meal = self.meal
        return (
            ("day", meal.day),
            ("place", meal.place_id),
            ("cook_group", meal.cook_group_id),
        )


def arrivals(replay: Replay) -> Iterator[Arrival]:
    """Each stay of each cook group that has containers and burns fuel on its first night."""
    facts = replay.facts
    for group in facts.problem.cook_groups:
        slept_at = ""
        for meal in facts.meals:
            if meal.cook_group_id != group.cook_group_id:
                continue
            arrives, slept_at = meal.place_id != slept_at, meal.place_id
            if arrives and group.containers and burnt_for(replay.facts, meal):
                yield Arrival(meal, _containers_ml(replay, meal))


def _containers_ml(replay: Replay, meal: Meal) -> tuple[int, ...]:
    time = after_night(replay.facts.night(meal.day))
    containers: list[int] = []
    for unit_id, each in fuel_ml(replay.facts, meal.day - 1, meal.cook_group_id).items():
        count = replay.courses[unit_id].before(time).get(meal.place_id, 0)
        containers += [each] * min(count, 1000)
    return tuple(containers)
