"""Who cooks for whom: what a kitchen burns for its own people and for its guests."""

from __future__ import annotations

from collections.abc import Mapping

from solver.checker.ledger.facts import Facts
from solver.checker.ledger.meals import Meal
from solver.checker.ledger.once import once


def burnt_for(facts: Facts, meal: Meal) -> int:
    """Fuel of all who eat from a kitchen on the night of its own meal, before any margin [mL].

    0 for the meal of guests, who burn nothing themselves.
    """
    return _burnt_ml(facts).get((meal.cook_group_id, meal.day), 0)


@once
def _burnt_ml(facts: Facts) -> Mapping[tuple[str, int], int]:
    """By kitchen and night [mL]."""
    kitchen_of = {
        g.cook_group_id: g.kitchen_of or g.cook_group_id for g in facts.problem.cook_groups
    }
    burnt: dict[tuple[str, int], int] = {}
    for meal in facts.meals:
        key = kitchen_of[meal.cook_group_id], meal.day
        burnt[key] = burnt.get(key, 0) + meal.people * meal.night_set.fuel_ml
    return burnt
