"""Clothing bands by temperature and wind."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.calculators.clothing_band import BANDS, ClothingBand, clothing_for, felt_temperature_c
from tests.calculators.published_values import misses, rows


@pytest.mark.parametrize("row", rows("felt_temperature_c"), ids=str)
def test_felt_temperature_is_the_charts_wind_chill(row: dict[str, str]) -> None:
    """The temperature that decides is the chart's; stronger winds count as 80 km/h."""
    assert not misses(felt_temperature_c, row)


@pytest.mark.parametrize("row", rows("clothing_for"), ids=str)
def test_bands_begin_at_their_limits(row: dict[str, str]) -> None:
    """Each band begins at its limit and not a tenth of a degree above it."""
    assert not misses(lambda **given: clothing_for(**given).band, row)


def test_parka_and_overboots_come_with_the_trade_limits() -> None:
    """At -15 degC in calm air a parka is needed and overboots are not; below -22 degC both are."""
    cold = clothing_for(air_temperature_c=-15, wind_km_h=0).needed
    severe = clothing_for(air_temperature_c=-22.5, wind_km_h=0).needed
    assert "parka" in cold
    assert "overboots" not in cold
    assert {"parka", "overboots", "insulated trousers"} <= set(severe)


@given(air_c=st.floats(-49, 9), wind_km_h=st.floats(0, 199))
def test_colder_or_windier_never_needs_less(air_c: float, wind_km_h: float) -> None:
    """One degree less or one km/h more keeps all that was needed."""
    here = set(clothing_for(air_temperature_c=air_c, wind_km_h=wind_km_h).needed)
    colder = clothing_for(air_temperature_c=air_c - 1, wind_km_h=wind_km_h)
    windier = clothing_for(air_temperature_c=air_c, wind_km_h=wind_km_h + 1)
    assert here <= set(colder.needed)
    assert here <= set(windier.needed)


def test_wind_counts_up_to_ten_degrees() -> None:
    """At 10 degC a wind of 50 km/h is still felt."""
    assert felt_temperature_c(air_temperature_c=10.0, wind_km_h=50) < 9.0


def test_bands_may_be_replaced() -> None:
    """A team's own bands decide where they are given."""
    own = (ClothingBand("always", math.inf, ("hat",)), ClothingBand("down suit", -10.0, ("suit",)))
    answer = clothing_for(air_temperature_c=-12, wind_km_h=0, bands=own)
    assert (answer.band, answer.needed) == ("down suit", ("hat", "suit"))


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"air_temperature_c": -50.1}, "air_temperature_c"),
        ({"air_temperature_c": 40.1}, "air_temperature_c"),
        ({"wind_km_h": 200.1}, "wind_km_h"),
        ({"bands": ()}, "bands"),
        ({"bands": BANDS[1:]}, "bands"),
        ({"bands": (BANDS[0], BANDS[3], BANDS[2])}, "bands"),
    ],
)
def test_out_of_range_is_refused(change, told) -> None:
    """Weather outside the charts and bands out of order are refused by name."""
    with pytest.raises(ValueError, match=told):
        clothing_for(**{"air_temperature_c": -10, "wind_km_h": 10} | change)
