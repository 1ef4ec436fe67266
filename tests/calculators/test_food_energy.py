"""Food energy and bulk rations against published examples."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.calculators.food_energy import (
    atwater_energy_kcal,
    bulk_ration_kcal_per_person_day,
    bulk_ration_kg,
    bulk_ration_pounds_per_person_day,
    energy_density_kcal_per_g,
    ration_mass_g,
)
from tests.calculators.published_values import misses, rows

FUNCTIONS = [
    atwater_energy_kcal,
    bulk_ration_kcal_per_person_day,
    bulk_ration_kg,
    bulk_ration_pounds_per_person_day,
    energy_density_kcal_per_g,
    ration_mass_g,
]
PUBLISHED = [(function, row) for function in FUNCTIONS for row in rows(function.__name__)]
FOOD = {
    "protein_g": 10,
    "available_carbohydrate_g": 50,
    "fat_g": 10,
    "fibre_g": 5,
    "alcohol_g": 0,
}


@pytest.mark.parametrize(("function", "row"), PUBLISHED)
def test_model_meets_its_published_figures(function, row) -> None:
    """Each function gives the figures of its source within their tolerance."""
    assert not misses(function, row)


def test_bulk_ration_example_in_its_own_pounds() -> None:
    """4 people for 8 days at 1.75 lb take 56.0 lb, the book's own example (quoted)."""
    kg = bulk_ration_kg(people=4, days=8, pounds_per_person_day=1.75)
    assert kg / 0.45359237 == pytest.approx(56.0, abs=0.05)


def test_cold_weather_meal_is_not_its_official_energy() -> None:
    """Three bags of 1540 kcal are 4620, 3 % above the page's own "4500 kcal" (both read)."""
    mass_g = 3 * 15 / 12 * 453.59237
    kcal = energy_density_kcal_per_g(energy_kcal=3 * 1540, mass_g=mass_g) * mass_g
    assert kcal == pytest.approx(4620, rel=0.01)
    assert kcal > 1.02 * 4500


def test_bulk_guidance_is_plausibly_dense() -> None:
    """Every kind of trip's pounds and kilocalories mean 3.5-4.5 kcal/g, below pure fat's 9.

    The book's own middle values are 3.6-4.1 kcal/g as packed (computed).
    """
    for trip in ("warm", "mild", "cool_days_cold_nights", "very_cold_with_sleds"):
        for bound in ("low", "high"):
            grams = 453.59237 * bulk_ration_pounds_per_person_day(trip=trip, bound=bound)
            kcal = bulk_ration_kcal_per_person_day(trip=trip, bound=bound)
            assert 3.5 <= energy_density_kcal_per_g(energy_kcal=kcal, mass_g=grams) <= 4.5


@given(
    amounts=st.fixed_dictionaries({name: st.floats(0, 1000) for name in FOOD}),
    name=st.sampled_from(sorted(FOOD)),
)
def test_more_food_has_more_energy(amounts: dict[str, float], name: str) -> None:
    """One more gram of any macronutrient raises the energy."""
    more = amounts | {name: amounts[name] + 1}
    assert atwater_energy_kcal(**more) > atwater_energy_kcal(**amounts)


@given(kcal=st.floats(1, 8000), density=st.floats(1, 9))
def test_mass_and_density_undo_each_other(kcal: float, density: float) -> None:
    """The mass found for an energy has the density that it was found with."""
    mass_g = ration_mass_g(energy_kcal=kcal, energy_density_kcal_per_g=density)
    if mass_g >= 1:
        assert energy_density_kcal_per_g(energy_kcal=kcal, mass_g=mass_g) == pytest.approx(density)


@given(kcal=st.floats(100, 8000), density=st.floats(1, 9))
def test_denser_food_weighs_less(kcal: float, density: float) -> None:
    """Denser food supplies the same energy with less mass."""
    light = ration_mass_g(energy_kcal=kcal, energy_density_kcal_per_g=density + 0.1)
    assert light < ration_mass_g(energy_kcal=kcal, energy_density_kcal_per_g=density)


@pytest.mark.parametrize("name", sorted(FOOD))
def test_atwater_refuses_negative_masses(name: str) -> None:
    """A negative mass of any macronutrient is refused by its name."""
    with pytest.raises(ValueError, match=f"{name}: -1 g was given"):
        atwater_energy_kcal(**FOOD | {name: -1})


@pytest.mark.parametrize(
    ("function", "given_arguments", "told"),
    [
        (energy_density_kcal_per_g, {"energy_kcal": 100, "mass_g": 0}, "mass_g"),
        (energy_density_kcal_per_g, {"energy_kcal": 1000, "mass_g": 100}, "10 kcal/g was given"),
        (energy_density_kcal_per_g, {"energy_kcal": -1, "mass_g": 100}, "energy_kcal"),
        (
            ration_mass_g,
            {"energy_kcal": 4000, "energy_density_kcal_per_g": 0.9},
            "energy_density_kcal_per_g",
        ),
        (ration_mass_g, {"energy_kcal": -1, "energy_density_kcal_per_g": 4}, "energy_kcal"),
        (bulk_ration_kg, {"people": 0, "days": 8, "pounds_per_person_day": 2}, "people"),
        (bulk_ration_kg, {"people": 4, "days": 121, "pounds_per_person_day": 2}, "days"),
        (bulk_ration_kg, {"people": 4, "days": 8, "pounds_per_person_day": 0.8}, "lb/person-day"),
        (bulk_ration_pounds_per_person_day, {"trip": "x", "bound": "low"}, "trip"),
        (bulk_ration_kcal_per_person_day, {"trip": "warm", "bound": "mid"}, "bound"),
    ],
)
def test_model_refuses_what_is_out_of_range(function, given_arguments, told) -> None:
    """Each function refuses what lies outside the range that its docstring names."""
    with pytest.raises(ValueError, match=told):
        function(**given_arguments)
