"""Faults planted in the kitchens of guests: each side that forgets them turns a guard red."""

from __future__ import annotations

from dataclasses import replace
from unittest.mock import patch

import pytest

from solver.checker.ledger.fuel import burn
from tests.planted_faults import first_red, guards


def _own_meals(_problem, kitchen, meals):
    """The requirements' meals of a kitchen without those of its guests."""
    return tuple(m for m in meals if m.cook_group_id == kitchen.cook_group_id)


def _burn_alone(problem, group, meals):
    """The checker's burning of a kitchen that knows of no guests."""
    hosts = tuple(replace(g, kitchen_of=None) for g in problem.cook_groups)
    return burn(replace(problem, cook_groups=hosts), group, meals)


def _burnt_alone(_facts, meal):
    """What a kitchen burns for its own people only."""
    return meal.people * meal.night_set.fuel_ml


@pytest.mark.parametrize(
    ("target", "fault", "rule_id", "in_model"),
    [
        ("solver.requirements.consumption._kitchen_meals", _own_meals, "fuel_held", True),
        ("solver.checker.ledger.facts.burn", _burn_alone, "fuel_held", False),
        (
            "solver.checker.rules.turn_round_stock_held.burnt_for",
            _burnt_alone,
            "turn_round_stock_held",
            False,
        ),
        (
            "solver.checker.rules.cache_loss_survived.burnt_for",
            _burnt_alone,
            "cache_loss_survived",
            False,
        ),
    ],
)
def test_a_side_that_forgets_the_guests_is_caught(target, fault, rule_id, *, in_model):
    """In model and checker, without the fuel of guests a world of the rules comes out wrong."""
    with patch(target, fault):
        assert first_red(guards(rule_id, in_model=in_model)) is not None
