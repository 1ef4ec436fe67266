"""Sunlight and what a panel makes of it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.calculators.solar_panel import panel_wh_per_day, sun_above_air_mj_per_m2
from tests.calculators.published_values import misses, rows

PUBLISHED = [
    (f, row) for f in (panel_wh_per_day, sun_above_air_mj_per_m2) for row in rows(f.__name__)
]


@pytest.mark.parametrize(("function", "row"), PUBLISHED)
def test_model_meets_its_published_figures(function, row) -> None:
    """Each model gives what its source has within the tolerance named there."""
    assert not misses(function, row)


@given(latitude=st.floats(30, 90))
def test_summer_has_more_sun_than_winter(latitude: float) -> None:
    """In the north day 172 has more sun than day 355, in the south the other way round."""
    assert sun_above_air_mj_per_m2(latitude_deg=latitude, day_of_year=172) > (
        sun_above_air_mj_per_m2(latitude_deg=latitude, day_of_year=355)
    )
    assert sun_above_air_mj_per_m2(latitude_deg=-latitude, day_of_year=172) < (
        sun_above_air_mj_per_m2(latitude_deg=-latitude, day_of_year=355)
    )
