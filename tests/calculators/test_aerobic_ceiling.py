"""The aerobic ceiling by elevation."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.calculators.aerobic_ceiling import aerobic_ceiling_kcal_per_hour, aerobic_share
from tests.calculators.published_values import misses, rows

PUBLISHED = [
    (f, row) for f in (aerobic_ceiling_kcal_per_hour, aerobic_share) for row in rows(f.__name__)
]


@pytest.mark.parametrize(("function", "row"), PUBLISHED)
def test_model_meets_its_published_figures(function, row) -> None:
    """Each model gives what its source has within the tolerance named there."""
    assert not misses(function, row)


@given(elevation=st.floats(-430, 7849))
def test_the_ceiling_falls_with_height(elevation: float) -> None:
    """Higher up there is never more oxygen for work, and always some."""
    higher = aerobic_share(elevation_m=elevation + 1000)
    assert 0 < higher <= aerobic_share(elevation_m=elevation)
