"""Poles and wands against accounts and common practice."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.calculators.marking import (
    cache_pole_count,
    cache_pole_length_m,
    cross_line_marker_count,
    route_wand_count,
)
from tests.calculators.published_values import misses, rows


@pytest.mark.parametrize("row", rows("cache_pole_count"), ids=str)
def test_poles_grow_with_the_stock(row: dict[str, str]) -> None:
    """A cache has two poles, a long one more, an empty one none."""
    assert not misses(cache_pole_count, row)


@pytest.mark.parametrize("row", rows("cache_pole_length_m"), ids=str)
def test_poles_stay_proud(row: dict[str, str]) -> None:
    """The pole of the accounts, 1.8 m, is met with 0.3 m of expected snow."""
    assert not misses(cache_pole_length_m, row)


@pytest.mark.parametrize("row", rows("route_wand_count"), ids=str)
def test_wands_stand_a_rope_apart(row: dict[str, str]) -> None:
    """There is a wand for each rope-team length, one at the end, and a tenth to spare."""
    assert not misses(route_wand_count, row)


@pytest.mark.parametrize("row", rows("cross_line_marker_count"), ids=str)
def test_cross_line_meets_the_historic_one(row: dict[str, str]) -> None:
    """Five miles to each side at half a mile are 20 flags and the depot's own (independent)."""
    assert not misses(cross_line_marker_count, row)


@given(volume_l=st.floats(0, 4900), snow_m=st.floats(0, 2.5))
def test_more_stock_and_snow_never_need_less(volume_l: float, snow_m: float) -> None:
    """A hundred litres more never take fewer poles, and more snow takes a longer one."""
    assert cache_pole_count(stock_volume_l=volume_l) <= cache_pole_count(
        stock_volume_l=volume_l + 100
    )
    assert cache_pole_length_m(expected_snow_m=snow_m) < cache_pole_length_m(
        expected_snow_m=snow_m + 0.1
    )


@pytest.mark.parametrize(
    ("function", "arguments", "told"),
    [
        (cache_pole_count, {"stock_volume_l": -1}, "stock_volume_l"),
        (cache_pole_count, {"stock_volume_l": 100, "l_per_pole": 0}, "l_per_pole"),
        (cache_pole_length_m, {"expected_snow_m": 3.1}, "expected_snow_m"),
        (cache_pole_length_m, {"expected_snow_m": 1, "stay_proud_m": 0}, "stay_proud_m"),
        (route_wand_count, {"distance_m": 100, "rope_team_length_m": 0}, "rope_team_length_m"),
        (route_wand_count, {"distance_m": -1, "rope_team_length_m": 50}, "distance_m"),
        (cross_line_marker_count, {"search_error_m": 100, "spacing_m": 0}, "spacing_m"),
        (cross_line_marker_count, {"search_error_m": -1, "spacing_m": 30}, "search_error_m"),
    ],
)
def test_out_of_range_is_refused(function, arguments, told) -> None:
    """Distances of nothing between markers and negative stocks are refused by name."""
    with pytest.raises(ValueError, match=told):
        function(**arguments)
