"""Temperature by day against profiles of the atmosphere."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.calculators.day_temperature import day_temperature_c
from tests.calculators.published_values import misses, rows


@pytest.mark.parametrize("row", rows("day_temperature_c"), ids=str)
def test_day_is_as_cold_as_the_profiles(row) -> None:
    """Winter and summer days are those of the subarctic profiles within their tolerance."""
    assert not misses(day_temperature_c, row)


@given(elevation=st.floats(-430, 8749))
def test_higher_and_earlier_in_the_year_is_colder(elevation: float) -> None:
    """It is colder higher up, and winter is colder than spring and spring than summer."""
    winter, spring, summer = (
        day_temperature_c(elevation_m=elevation, season=season)
        for season in ("winter", "spring", "summer")
    )
    assert winter < spring < summer
    assert day_temperature_c(elevation_m=elevation + 100, season="spring") < spring


def test_unknown_seasons_are_refused() -> None:
    """A season beyond the three is refused by name."""
    with pytest.raises(ValueError, match="allowed is one of"):
        day_temperature_c(elevation_m=0, season="monsoon")
