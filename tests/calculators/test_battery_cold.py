"""Batteries in the cold against the two published points."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.calculators.battery_cold import batteries_needed, battery_capacity_share, may_charge
from tests.calculators.published_values import misses, rows


@pytest.mark.parametrize("row", rows("battery_capacity_share"), ids=str)
def test_share_passes_the_published_points(row: dict[str, str]) -> None:
    """A cell is full at 27 degC and half at -18 degC, with a straight line between."""
    assert not misses(battery_capacity_share, row)


@pytest.mark.parametrize("row", rows("batteries_needed"), ids=str)
def test_batteries_are_counted_up(row: dict[str, str]) -> None:
    """The energy with its spare, over what a cold battery gives, is rounded up."""
    assert not misses(batteries_needed, row)


@pytest.mark.parametrize("row", rows("may_charge"), ids=str)
def test_cells_are_not_charged_below_freezing(row: dict[str, str]) -> None:
    """A lithium-ion cell may be charged from 0 to 45 degC and not a tenth beyond."""
    assert not misses(lambda **given: str(may_charge(**given)), row)


@given(energy_wh=st.floats(0, 4000), cell_c=st.floats(-29, 27))
def test_cold_and_energy_never_need_fewer(energy_wh: float, cell_c: float) -> None:
    """A degree colder or ten watt-hours more never needs fewer batteries."""
    here = batteries_needed(energy_wh=energy_wh, battery_wh=20, cell_temperature_c=cell_c)
    colder = batteries_needed(energy_wh=energy_wh, battery_wh=20, cell_temperature_c=cell_c - 1)
    more = batteries_needed(energy_wh=energy_wh + 10, battery_wh=20, cell_temperature_c=cell_c)
    assert here <= min(colder, more)


@pytest.mark.parametrize(
    ("function", "arguments", "told"),
    [
        (battery_capacity_share, {"cell_temperature_c": -30.1}, "cell_temperature_c"),
        (battery_capacity_share, {"cell_temperature_c": 61}, "cell_temperature_c"),
        (
            batteries_needed,
            {"energy_wh": 10, "battery_wh": 0, "cell_temperature_c": 0},
            "battery_wh",
        ),
        (
            batteries_needed,
            {"energy_wh": -1, "battery_wh": 5, "cell_temperature_c": 0},
            "energy_wh",
        ),
        (may_charge, {"cell_temperature_c": -61}, "cell_temperature_c"),
    ],
)
def test_out_of_range_is_refused(function, arguments, told) -> None:
    """Cells colder than the line reaches and batteries of no energy are refused by name."""
    with pytest.raises(ValueError, match=told):
        function(**arguments)
