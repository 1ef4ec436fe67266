"""Total energy of ordinary days against the reports' tables and worked examples."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.calculators.total_energy import (
    fao_2004_total_kcal_per_day,
    iom_2005_men_kcal_per_day,
    iom_2005_women_kcal_per_day,
    nasem_2023_kcal_per_day,
)
from tests.calculators.published_values import misses, rows

IOM_CLASSES = ["sedentary", "low_active", "active", "very_active"]
PERSON = {"age_years": 30, "body_mass_kg": 70}


@pytest.mark.parametrize("row", rows("iom_2005_men_kcal_per_day"), ids=str)
def test_iom_men_meet_the_reports_table(row: dict[str, str]) -> None:
    """The men's equation reproduces the report's table for age 30 (independent)."""
    assert not misses(iom_2005_men_kcal_per_day, row)


@pytest.mark.parametrize("row", rows("iom_2005_women_kcal_per_day"), ids=str)
def test_iom_women_meet_the_reports_table(row: dict[str, str]) -> None:
    """The women's equation reproduces the report's table for age 30 (independent)."""
    assert not misses(iom_2005_women_kcal_per_day, row)


def test_iom_men_have_their_own_activity_factors() -> None:
    """The men's very active factor is 1.48; the women's 1.45 would give 3166 for 3225 kcal."""
    kcal = iom_2005_men_kcal_per_day(
        age_years=30, body_mass_kg=59.9, height_m=1.80, activity="very_active"
    )
    assert abs(kcal - 3225) <= 2
    assert abs(kcal - 3166) > 50


@pytest.mark.parametrize("row", rows("nasem_2023_kcal_per_day"), ids=str)
def test_nasem_meets_its_equation(row: dict[str, str]) -> None:
    """The NASEM equations give the quoted worked values (typing slips only)."""
    assert not misses(nasem_2023_kcal_per_day, row)


@pytest.mark.parametrize("row", rows("fao_2004_total_kcal_per_day"), ids=str)
def test_fao_total_meets_the_reports_example(row: dict[str, str]) -> None:
    """Basal energy times activity level gives the report's worked 2410 kcal (independent)."""
    assert not misses(fao_2004_total_kcal_per_day, row)


@given(mass_kg=st.floats(40, 149), lower=st.integers(0, 2))
def test_energy_grows_with_mass_and_activity(mass_kg: float, lower: int) -> None:
    """One more kilogram, or one more activity class, raises the IOM requirement."""
    person = {"age_years": 40, "body_mass_kg": mass_kg, "height_m": 1.7}
    for equation in (iom_2005_men_kcal_per_day, iom_2005_women_kcal_per_day):
        base = equation(**person, activity=IOM_CLASSES[lower])
        assert (
            equation(**person | {"body_mass_kg": mass_kg + 1}, activity=IOM_CLASSES[lower]) > base
        )
        assert equation(**person, activity=IOM_CLASSES[lower + 1]) > base


@pytest.mark.parametrize("equation", [iom_2005_men_kcal_per_day, iom_2005_women_kcal_per_day])
@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"age_years": 18}, "age_years"),
        ({"body_mass_kg": 39}, "body_mass_kg"),
        ({"height_m": 180}, "Height is in metres here"),
        ({"activity": "lazy"}, "activity: 'lazy' was given; allowed is one of: active, low_active"),
    ],
)
def test_iom_refuses_what_is_out_of_range(equation, change, told) -> None:
    """The IOM equations refuse persons outside their range, and heights in centimetres."""
    with pytest.raises(ValueError, match=told):
        equation(**(PERSON | {"height_m": 1.7, "activity": "active"} | change))


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"age_years": 91}, "age_years"),
        ({"body_mass_kg": 151}, "body_mass_kg"),
        ({"height_cm": 1.7}, "height_cm"),
        ({"activity": "sedentary"}, "inactive"),
        ({"sex": "x"}, "sex"),
    ],
)
def test_nasem_refuses_what_is_out_of_range(change, told) -> None:
    """The NASEM equations refuse persons outside their range, and IOM's name for inactive."""
    good = {"sex": "male", "height_cm": 170, "activity": "active"}
    with pytest.raises(ValueError, match=told):
        nasem_2023_kcal_per_day(**(PERSON | good | change))


@pytest.mark.parametrize("level", [1.39, 2.41])
def test_fao_total_refuses_levels_outside_the_bands(level: float) -> None:
    """Activity levels below 1.40 and above 2.40 are refused."""
    with pytest.raises(ValueError, match="physical_activity_level"):
        fao_2004_total_kcal_per_day(basal_kcal_per_day=1500, physical_activity_level=level)


@pytest.mark.parametrize("basal", [699, 3501])
def test_fao_total_refuses_impossible_basal_energy(basal: float) -> None:
    """Basal energies that no adult has are refused."""
    with pytest.raises(ValueError, match="basal_kcal_per_day"):
        fao_2004_total_kcal_per_day(basal_kcal_per_day=basal, physical_activity_level=1.85)
