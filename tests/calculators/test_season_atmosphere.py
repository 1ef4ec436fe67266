"""Pressure by latitude and season against the reference profiles."""

from __future__ import annotations

import pytest

from solver.calculators.atmosphere import standard_pressure_hpa
from solver.calculators.season_atmosphere import (
    low_latitude_pressure_hpa,
    profile_pressure_hpa,
    winter_caution,
)
from tests.calculators.published_values import misses, rows


@pytest.mark.parametrize("row", rows("profile_pressure_hpa"), ids=str)
def test_profiles_meet_the_afgl_table(row: dict[str, str]) -> None:
    """Each reference profile has its published pressure, and a near one between its levels."""
    assert not misses(profile_pressure_hpa, row)


@pytest.mark.parametrize("height_m", [0, 1000, 2500, 4300, 6000, 8000])
def test_us_standard_profile_is_the_standard_atmosphere(height_m: float) -> None:
    """The profile of the US standard lies within 0.5 hPa of the closed formula (independent)."""
    profile = profile_pressure_hpa(profile="us_standard", geometric_height_m=height_m)
    assert profile == pytest.approx(standard_pressure_hpa(geometric_height_m=height_m), abs=0.5)


@pytest.mark.parametrize("row", rows("low_latitude_pressure_hpa"), ids=str)
def test_low_latitude_equation_meets_its_values(row: dict[str, str]) -> None:
    """West's equation gives the worked pressures (typing slips only)."""
    assert not misses(low_latitude_pressure_hpa, row)


@pytest.mark.parametrize("height_m", [3000, 4300, 5200, 6000])
def test_low_latitude_equation_agrees_with_the_tropical_profile(height_m: float) -> None:
    """West's equation, from memory, lies within 0.5 % of the tropical profile (independent)."""
    tropical = profile_pressure_hpa(profile="tropical", geometric_height_m=height_m)
    west = low_latitude_pressure_hpa(geometric_height_m=height_m)
    assert west == pytest.approx(tropical, rel=0.005)


@pytest.mark.parametrize("row", rows("winter_caution"), ids=str)
def test_winter_lifts_a_camp_to_the_published_height(row: dict[str, str]) -> None:
    """The subarctic winter's air at a camp equals the standard air of the height given."""
    assert not misses(lambda **given: winter_caution(**given).felt_height_m, row)


def test_winter_caution_says_both_pressures() -> None:
    """The sentence names the camp, both pressures and the height that the winter's air equals."""
    caution = winter_caution(geometric_height_m=4300)
    assert "4300 m" in caution.sentence
    assert f"{caution.winter_hpa:.0f} hPa instead of 593 hPa" in caution.sentence
    assert caution.winter_hpa < caution.standard_hpa


@pytest.mark.parametrize(
    ("function", "arguments", "told"),
    [
        (
            profile_pressure_hpa,
            {"profile": "winter", "geometric_height_m": 3000},
            "subarctic_winter",
        ),
        (
            profile_pressure_hpa,
            {"profile": "tropical", "geometric_height_m": 9001},
            "geometric_height_m",
        ),
        (low_latitude_pressure_hpa, {"geometric_height_m": -1}, "geometric_height_m"),
        (winter_caution, {"geometric_height_m": 8001}, "geometric_height_m"),
    ],
)
def test_out_of_range_is_refused(function, arguments, told) -> None:
    """Unknown profiles and heights outside the table are refused with what is allowed."""
    with pytest.raises(ValueError, match=told):
        function(**arguments)
