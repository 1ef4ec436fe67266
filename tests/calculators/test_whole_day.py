"""Rates of a whole day against their sources."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.calculators.whole_day import (
    awake_kcal_per_hour,
    camp_work_kcal_per_hour,
    digestion_kcal,
    resting_height_factor,
    sleeping_kcal_per_hour,
)
from tests.calculators.published_values import misses, rows

FUNCTIONS = [
    awake_kcal_per_hour,
    camp_work_kcal_per_hour,
    digestion_kcal,
    resting_height_factor,
    sleeping_kcal_per_hour,
]


@pytest.mark.parametrize(
    ("function", "row"), [(f, row) for f in FUNCTIONS for row in rows(f.__name__)]
)
def test_rate_meets_its_published_figure(function, row) -> None:
    """Each rate is that of its source within the tolerance named there."""
    assert not misses(function, row)


@given(height=st.floats(4300, 8849))
def test_rest_at_height_stays_among_the_measurements(height: float) -> None:
    """From 4300 m on the factor lies within the 10 to 28 % that were measured."""
    assert 1.10 <= resting_height_factor(elevation_m=height) <= 1.28


@given(height=st.floats(-430, 8749))
def test_rest_never_falls_with_height(height: float) -> None:
    """Higher up a resting body never spends less."""
    higher = resting_height_factor(elevation_m=height + 100)
    assert higher >= resting_height_factor(elevation_m=height)
