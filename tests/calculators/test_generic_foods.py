"""The table of generic foods: sourced, consistent, and equal to a second public reading."""

from __future__ import annotations

import pytest

from solver.calculators.generic_foods import (
    GenericFood,
    generic_food,
    generic_food_atwater_difference,
    generic_food_energy_kcal,
    generic_foods,
)
from tests.calculators.published_values import misses, rows

FUNCTIONS = [generic_food_energy_kcal, generic_food_atwater_difference]
PUBLISHED = [(function, row) for function in FUNCTIONS for row in rows(function.__name__)]
FOODS = generic_foods()
per_food = pytest.mark.parametrize("food", FOODS, ids=lambda food: food.food_id)


@pytest.mark.parametrize(("function", "row"), PUBLISHED)
def test_table_meets_a_second_reading(function, row) -> None:
    """The table agrees with a second public text that quotes the same entries."""
    assert not misses(function, row)


def test_table_is_about_forty_different_foods() -> None:
    """The table has at least 40 foods, no id and no description twice."""
    assert len(FOODS) >= 40
    assert len({food.food_id for food in FOODS}) == len(FOODS)
    assert len({food.usda_description for food in FOODS}) == len(FOODS)


@per_food
def test_printed_energy_agrees_with_atwater(food: GenericFood) -> None:
    """Each food's printed energy lies within 10 % of Atwater's general factors, without exception.

    USDA's printed energies come from factors special to a food, so they are another route.
    """
    assert abs(generic_food_atwater_difference(food_id=food.food_id)) <= 0.10


def test_dried_fruit_needs_its_fibre_apart() -> None:
    """With fibre counted as other carbohydrate, dates would be over 10 % off, as documented."""
    dates = generic_food(food_id="dates")
    kcal = 4 * dates.protein_g + 4 * dates.carbohydrate_g + 9 * dates.fat_g
    assert kcal / dates.energy_kcal - 1 > 0.10


@per_food
def test_macronutrients_fit_into_100_g(food: GenericFood) -> None:
    """No food holds over 100 g of macronutrients in 100 g, and fibre is part of carbohydrate."""
    assert 0 <= food.fibre_g <= food.carbohydrate_g
    assert 0 < food.protein_g + food.fat_g + food.carbohydrate_g <= 100.05


@per_food
def test_each_food_says_how_sure_it_is(food: GenericFood) -> None:
    """Each food names its entry and whether it was read, quoted or is from memory, unverified."""
    assert food.usda_description
    sure = food.status in {"read", "quoted"}
    assert sure or food.status.endswith("from memory, unverified")
    assert len(food.ndb_number) in {0, 5}
    assert len(food.fdc_id) in {0, 6}


def test_unknown_food_is_refused() -> None:
    """An id that the table does not have is refused with the ids that it has."""
    with pytest.raises(ValueError, match="allowed is one of: almonds"):
        generic_food(food_id="manna")


def test_negative_mass_is_refused() -> None:
    """A negative mass of food is refused."""
    with pytest.raises(ValueError, match="mass_g: -1 g was given"):
        generic_food_energy_kcal(food_id="almonds", mass_g=-1)


def test_difference_refuses_unknown_foods() -> None:
    """The comparison with Atwater refuses an id that the table does not have."""
    with pytest.raises(ValueError, match="food_id"):
        generic_food_atwater_difference(food_id="manna")
