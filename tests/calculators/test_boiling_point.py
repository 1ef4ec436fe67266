"""Boiling points against the release's own table and IAPWS-95."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.calculators.boiling_point import (
    boiling_point_at_height_c,
    boiling_point_c,
    cooking_time_factor,
)
from solver.calculators.season_atmosphere import profile_pressure_hpa
from tests.calculators.published_values import misses, rows


@pytest.mark.parametrize("row", rows("boiling_point_c"), ids=str)
def test_boiling_point_follows_iapws(row: dict[str, str]) -> None:
    """The saturation line meets the verification value and IAPWS-95 (independent)."""
    assert not misses(boiling_point_c, row)


@pytest.mark.parametrize("row", rows("boiling_point_at_height_c"), ids=str)
def test_boiling_point_at_height_follows_two_libraries(row: dict[str, str]) -> None:
    """Water boils at a height as ICAO's pressure and IAPWS-95 together say (independent)."""
    assert not misses(boiling_point_at_height_c, row)


@pytest.mark.parametrize("pressure_hpa", [355.0, 430.0, 620.0, 888.0])
def test_boiling_point_agrees_with_coolprop(pressure_hpa: float) -> None:
    """At pressures outside the file, IAPWS-95 agrees within 0.001 K (independent)."""
    coolprop = pytest.importorskip(
        "CoolProp.CoolProp", reason="the CoolProp library is a test dependency and is not installed"
    )
    kelvin = coolprop.PropsSI("T", "P", pressure_hpa * 100, "Q", 0, "Water")
    assert boiling_point_c(pressure_hpa=pressure_hpa) == pytest.approx(kelvin - 273.15, abs=0.001)


@pytest.mark.parametrize(("height_m", "boils_c"), [(4300, 84.6), (6000, 78.5)])
def test_water_boils_colder_in_a_subarctic_winter(height_m: float, boils_c: float) -> None:
    """In the subarctic winter water boils at 84.6 and 78.5 degC at 4300 and 6000 m (0.05 K)."""
    winter = profile_pressure_hpa(profile="subarctic_winter", geometric_height_m=height_m)
    assert boiling_point_c(pressure_hpa=winter) == pytest.approx(boils_c, abs=0.05)


@pytest.mark.parametrize("row", rows("cooking_time_factor"), ids=str)
def test_cooking_time_doubles(row: dict[str, str]) -> None:
    """Ten degrees less take twice the time, and boiling hotter than 100 degC saves none."""
    assert not misses(cooking_time_factor, row)


@given(pressure_hpa=st.floats(300, 1099))
def test_thinner_air_boils_sooner_and_cooks_longer(pressure_hpa: float) -> None:
    """One hectopascal less lowers the boiling point, and never shortens the cooking."""
    low = boiling_point_c(pressure_hpa=pressure_hpa)
    high = boiling_point_c(pressure_hpa=pressure_hpa + 1)
    assert low < high
    if low >= 70 and high <= 100.5:
        assert cooking_time_factor(boiling_point_c=low) >= cooking_time_factor(boiling_point_c=high)


@pytest.mark.parametrize(
    ("function", "arguments", "told"),
    [
        (boiling_point_c, {"pressure_hpa": 101_325}, "pressure_hpa"),
        (boiling_point_c, {"pressure_hpa": 299}, "pressure_hpa"),
        (boiling_point_at_height_c, {"geometric_height_m": 9001}, "geometric_height_m"),
        (cooking_time_factor, {"boiling_point_c": 69}, "boiling_point_c"),
        (cooking_time_factor, {"boiling_point_c": 90, "doubling_k": 0}, "doubling_k"),
    ],
)
def test_out_of_range_is_refused(function, arguments, told) -> None:
    """Pressures in pascals and boiling points of no camp are refused by name."""
    with pytest.raises(ValueError, match=told):
        function(**arguments)
