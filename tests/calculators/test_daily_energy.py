"""Metabolic power as energy an hour."""

from __future__ import annotations

import pytest

from solver.calculators.daily_energy import watts_to_kcal_per_hour
from tests.calculators.published_values import misses, rows


@pytest.mark.parametrize("row", rows("watts_to_kcal_per_hour"), ids=str)
def test_power_meets_the_published_rate(row: dict[str, str]) -> None:
    """Man-hauling's 31.1 kJ/min come out as its 446 kcal/h."""
    assert not misses(watts_to_kcal_per_hour, row)


@pytest.mark.parametrize("power", [-1, 2501])
def test_power_refuses_what_nobody_spends(power: float) -> None:
    """Powers below zero and above what a person can spend are refused."""
    with pytest.raises(ValueError, match="power_w"):
        watts_to_kcal_per_hour(power_w=power)
