"""Water per person-day against published guidance."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.calculators.water_need import (
    published_water_range_l,
    rehydration_water_l,
    water_need,
)
from tests.calculators.published_values import misses, rows


@pytest.mark.parametrize("row", rows("published_water_range_l"), ids=str)
def test_published_ranges_are_as_printed(row: dict[str, str]) -> None:
    """The upper end of each published range is as printed, turned into litres."""
    assert not misses(lambda **given: published_water_range_l(**given)[1], row)


@pytest.mark.parametrize(
    ("setting", "litres"),
    [
        ("cold_heavy_work", 3.3),
        ("cold_general", 1.9),
        ("rule_of_thumb", 3.8),
        ("altitude", 4.0),
        ("forced", 5.7),
    ],
)
def test_published_ranges_have_their_lower_ends(setting, litres: float) -> None:
    """The lower end of each published range is as printed, within half a unit of its last digit."""
    assert published_water_range_l(setting=setting)[0] == pytest.approx(litres, abs=0.05)


def test_the_default_day_boils_two_litres_of_four() -> None:
    """By default 2 L are melted and 2 L boiled, 1 L of them for meals."""
    need = water_need()
    assert (need.melted_l, need.boiled_l, need.rehydration_l) == (2.0, 2.0, 1.0)


@pytest.mark.parametrize("row", rows("rehydration_water_l"), ids=str)
def test_rehydration_meets_the_supply_page(row: dict[str, str]) -> None:
    """Three bags a day take up the 3.02 L that are given for them."""
    assert not misses(rehydration_water_l, row)


@pytest.mark.parametrize("row", rows("water_need"), ids=str)
def test_planned_totals_are_the_bands(row: dict[str, str]) -> None:
    """The total is the band's, and grows only to what meals and hot drinks need."""
    assert not misses(lambda **given: water_need(**given).total_l, row)


@pytest.mark.parametrize("band", ["low", "mid", "high", "storm"])
def test_planned_totals_lie_in_the_published_range(band) -> None:
    """Every band's total lies inside the 1.9 to 5.7 L of general guidance (independent)."""
    least, most = published_water_range_l(setting="cold_general")
    assert least <= water_need(band=band).total_l <= most


@given(rehydration_l=st.floats(0, 3), hot_drinks_l=st.floats(0, 3))
def test_rehydration_is_inside_the_boiled_water(rehydration_l, hot_drinks_l) -> None:
    """Melted and boiled add up to the total, and meal water is part of the boiled."""
    need = water_need(band="mid", rehydration_l=rehydration_l, hot_drinks_l=hot_drinks_l)
    assert need.melted_l + need.boiled_l == pytest.approx(need.total_l)
    assert need.rehydration_l <= need.boiled_l <= need.total_l
    assert need.melted_l >= 0


@pytest.mark.parametrize(
    ("function", "arguments", "told"),
    [
        (published_water_range_l, {"setting": "desert"}, "setting"),
        (rehydration_water_l, {"bags": -1}, "bags"),
        (water_need, {"band": "summit"}, "band"),
        (water_need, {"rehydration_l": 4.1}, "rehydration_l"),
        (water_need, {"hot_drinks_l": -0.1}, "hot_drinks_l"),
        (water_need, {"rehydration_l": 4, "hot_drinks_l": 2.5}, "plus hot_drinks_l"),
    ],
)
def test_out_of_range_is_refused(function, arguments, told) -> None:
    """Unknown settings and amounts that nobody drinks are refused by name."""
    with pytest.raises(ValueError, match=told):
        function(**arguments)
