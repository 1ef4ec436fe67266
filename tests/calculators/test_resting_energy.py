"""Resting energy against its published equations and the worked example of one report."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.calculators.resting_energy import (
    fao_2004_basal_kcal_per_day,
    mifflin_1990_resting_kcal_per_day,
)
from tests.calculators.published_values import misses, rows

MASSES = st.floats(30, 199)
MAN = {"sex": "male", "body_mass_kg": 75, "age_years": 40}


@pytest.mark.parametrize("row", rows("mifflin_1990_resting_kcal_per_day"), ids=str)
def test_mifflin_meets_its_equation(row: dict[str, str]) -> None:
    """Mifflin and St Jeor's equation gives the values worked by hand (typing slips only)."""
    assert not misses(mifflin_1990_resting_kcal_per_day, row)


@pytest.mark.parametrize("row", rows("fao_2004_basal_kcal_per_day"), ids=str)
def test_fao_meets_the_reports_example(row: dict[str, str]) -> None:
    """The FAO equations give the report's worked example and the values worked by hand."""
    assert not misses(fao_2004_basal_kcal_per_day, row)


@given(mass_kg=MASSES, sex=st.sampled_from(["female", "male"]), age=st.integers(19, 78))
def test_a_heavier_body_rests_at_more(mass_kg: float, sex: str, age: int) -> None:
    """One more kilogram of body mass raises resting energy, in both models."""
    light = {"sex": sex, "age_years": age, "body_mass_kg": mass_kg}
    heavy = light | {"body_mass_kg": mass_kg + 1}
    assert fao_2004_basal_kcal_per_day(**light) < fao_2004_basal_kcal_per_day(**heavy)
    tall = {"height_cm": 170}
    assert mifflin_1990_resting_kcal_per_day(**light | tall) < mifflin_1990_resting_kcal_per_day(
        **heavy | tall
    )


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"age_years": 17.9}, "age_years: 17.9 years was given; allowed is 18 to 90 years."),
        ({"age_years": 90.1}, "age_years"),
        ({"body_mass_kg": 29}, "body_mass_kg"),
        ({"body_mass_kg": 201}, "body_mass_kg"),
        ({"body_mass_kg": float("nan")}, "body_mass_kg"),
        ({"sex": "other"}, "sex: 'other' was given; allowed is one of: female, male."),
    ],
)
def test_fao_refuses_what_is_out_of_range(change: dict[str, object], told: str) -> None:
    """The FAO equations refuse ages, masses and sexes that they were not made for."""
    with pytest.raises(ValueError, match=told):
        fao_2004_basal_kcal_per_day(**(MAN | change))


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"age_years": 18}, "age_years"),
        ({"age_years": 79}, "age_years"),
        ({"height_cm": 1.75}, "height_cm: 1.75 cm was given; allowed is 130 to 220 cm."),
        ({"body_mass_kg": 20}, "body_mass_kg"),
        ({"sex": ""}, "sex"),
    ],
)
def test_mifflin_refuses_what_is_out_of_range(change: dict[str, object], told: str) -> None:
    """Mifflin's equation refuses ages, heights, masses and sexes outside its range."""
    with pytest.raises(ValueError, match=told):
        mifflin_1990_resting_kcal_per_day(**(MAN | {"height_cm": 175} | change))
