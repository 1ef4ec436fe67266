"""Body mass lost and appetite against measured people."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.calculators.body_mass import appetite_lost_share, mass_lost_kg
from tests.calculators.published_values import misses, rows

PUBLISHED = [(f, row) for f in (appetite_lost_share, mass_lost_kg) for row in rows(f.__name__)]


@pytest.mark.parametrize(("function", "row"), PUBLISHED)
def test_model_meets_its_published_figures(function, row) -> None:
    """Each model gives what was measured within the spread of its source."""
    assert not misses(function, row)


@given(deficit=st.floats(1, 400_000), share=st.floats(0.2, 0.8))
def test_losing_fat_loses_less(deficit: float, share: float) -> None:
    """The more of the loss is fat, the less mass pays for the same lack of energy."""
    leaner = mass_lost_kg(deficit_kcal=deficit, fat_share=share)
    assert mass_lost_kg(deficit_kcal=deficit, fat_share=share + 0.1) < leaner


@given(height=st.floats(-430, 8000))
def test_appetite_never_grows_with_height(height: float) -> None:
    """Higher up people never eat more of what they want lower down."""
    assert appetite_lost_share(elevation_m=height + 500) >= appetite_lost_share(elevation_m=height)
