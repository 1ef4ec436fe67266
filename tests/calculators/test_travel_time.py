"""Walking times against the rules' own words and worked examples."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.calculators.travel_time import (
    carrying_distance_km,
    din_33466_hours,
    langmuir_hours,
    loaded_hours,
    munter_hours,
    munter_rate,
    naismith_1892_hours,
    sac_guidebook_hours,
    tobler_1993_km_per_hour,
)
from tests.calculators.published_values import misses, rows

FUNCTIONS = [
    carrying_distance_km,
    din_33466_hours,
    langmuir_hours,
    loaded_hours,
    munter_hours,
    munter_rate,
    naismith_1892_hours,
    sac_guidebook_hours,
    tobler_1993_km_per_hour,
]
PUBLISHED = [(function, row) for function in FUNCTIONS for row in rows(function.__name__)]
LEGS = {
    naismith_1892_hours: {"distance_km": 10, "ascent_m": 500},
    langmuir_hours: {
        "distance_km": 10,
        "ascent_m": 500,
        "gentle_descent_m": 0,
        "steep_descent_m": 100,
        "flat_speed_km_per_h": 4,
    },
    din_33466_hours: {"distance_km": 10, "ascent_m": 500, "descent_m": 100},
    sac_guidebook_hours: {"distance_km": 10, "ascent_m": 500, "descent_m": 100},
    munter_hours: {"distance_km": 10, "height_change_m": 500, "rate_units_per_hour": 4},
}
# What makes a leg longer: a descent by Langmuir only where it is steep.
LENGTHENING = [
    (function, argument)
    for function, leg in LEGS.items()
    for argument in leg
    if argument not in {"gentle_descent_m", "flat_speed_km_per_h", "rate_units_per_hour"}
]


@pytest.mark.parametrize(("function", "row"), PUBLISHED)
def test_rule_meets_its_published_figures(function, row) -> None:
    """Each rule gives the figures of its source within their tolerance."""
    assert not misses(function, row)


def test_naismith_in_its_own_units() -> None:
    """Ten miles and 2000 ft, 4 h 20 min in the rule's own units, take 2.3 % less in metric form."""
    hours = naismith_1892_hours(distance_km=10 * 1.609344, ascent_m=2000 * 0.3048)
    assert hours == pytest.approx((1 - 0.023) * 13 / 3, abs=0.005)


@given(more=st.floats(1, 3))
@pytest.mark.parametrize(("function", "argument"), LENGTHENING)
def test_a_longer_or_higher_leg_takes_longer(function, argument: str, more: float) -> None:
    """More distance, ascent or steep descent never makes a leg shorter."""
    leg = LEGS[function]
    assert function(**leg | {argument: leg[argument] * more}) >= function(**leg)


def test_descent_angles_of_langmuir_are_these_slopes() -> None:
    """The limits of 5 and 12 degrees are slopes of 0.0875 and 0.2126 (table of tangents)."""
    assert math.tan(math.radians(5)) == pytest.approx(0.0875, abs=5e-5)
    assert math.tan(math.radians(12)) == pytest.approx(0.2126, abs=5e-5)


@given(slope=st.floats(-0.7, 0.7), surface=st.sampled_from(["path", "off_path"]))
def test_tobler_is_fastest_slightly_downhill(slope: float, surface: str) -> None:
    """No slope is walked faster than the gentle descent of 5 %, which is 6 km/h on a path."""
    best = tobler_1993_km_per_hour(slope=-0.05, surface=surface)
    assert 0 < tobler_1993_km_per_hour(slope=slope, surface=surface) <= best <= 6


@given(slope=st.floats(0, 0.6))
def test_tobler_slows_uphill(slope: float) -> None:
    """Steeper ascents are walked slower."""
    steeper = tobler_1993_km_per_hour(slope=slope + 0.05, surface="path")
    assert steeper < tobler_1993_km_per_hour(slope=slope, surface="path")


def test_langmuir_rewards_gentle_and_punishes_steep_descents() -> None:
    """300 m of gentle descent save 10 minutes, 300 m of steep descent cost 10 minutes."""
    leg = LEGS[langmuir_hours] | {"steep_descent_m": 0}
    flat = langmuir_hours(**leg)
    assert langmuir_hours(**leg | {"gentle_descent_m": 300}) == pytest.approx(flat - 1 / 6)
    assert langmuir_hours(**leg | {"steep_descent_m": 300}) == pytest.approx(flat + 1 / 6)


@given(factor=st.floats(1, 4.9))
def test_a_heavier_load_factor_takes_longer(factor: float) -> None:
    """A larger load factor lengthens the leg, and none makes it shorter than unloaded."""
    assert (
        2
        <= loaded_hours(unloaded_hours=2, load_factor=factor)
        < loaded_hours(unloaded_hours=2, load_factor=factor + 0.1)
    )


@pytest.mark.parametrize("function", list(LEGS))
@pytest.mark.parametrize("distance_km", [-1, 61])
def test_rule_refuses_impossible_distances(function, distance_km: float) -> None:
    """Every rule refuses distances that are no day's leg."""
    with pytest.raises(ValueError, match="distance_km"):
        function(**LEGS[function] | {"distance_km": distance_km})


@pytest.mark.parametrize(
    ("function", "change", "told"),
    [
        (naismith_1892_hours, {"ascent_m": 4001}, "ascent_m"),
        (langmuir_hours, {"flat_speed_km_per_h": 6.1}, "flat_speed_km_per_h"),
        (langmuir_hours, {"gentle_descent_m": -1}, "gentle_descent_m"),
        (langmuir_hours, {"steep_descent_m": -1, "gentle_descent_m": 2}, "steep_descent_m"),
        (langmuir_hours, {"steep_descent_m": 2001, "gentle_descent_m": 2000}, "descent_m"),
        (din_33466_hours, {"descent_m": -1}, "descent_m"),
        (sac_guidebook_hours, {"descent_m": 4001}, "descent_m"),
        (munter_hours, {"rate_units_per_hour": 0.9}, "rate_units_per_hour"),
        (munter_hours, {"height_change_m": -500}, "m was given"),
    ],
)
def test_rule_refuses_what_is_out_of_range(function, change, told) -> None:
    """Every rule refuses heights and rates outside the range that its docstring names."""
    with pytest.raises(ValueError, match=told):
        function(**LEGS[function] | change)


@pytest.mark.parametrize(
    ("function", "given_arguments", "told"),
    [
        (tobler_1993_km_per_hour, {"slope": 8, "surface": "path"}, "Write 8 % as 0.08"),
        (tobler_1993_km_per_hour, {"slope": 0, "surface": "road"}, "surface"),
        (munter_rate, {"movement": "crawl"}, "movement"),
        (loaded_hours, {"unloaded_hours": 3, "load_factor": 0.9}, "load_factor"),
        (loaded_hours, {"unloaded_hours": 25, "load_factor": 1}, "unloaded_hours"),
        (carrying_distance_km, {"one_way_km": 5, "loads": 0}, "loads"),
        (carrying_distance_km, {"one_way_km": 5, "loads": 2.5}, "whole number of loads"),
        (carrying_distance_km, {"one_way_km": 61, "loads": 2}, "one_way_km"),
    ],
)
def test_function_refuses_what_is_out_of_range(function, given_arguments, told) -> None:
    """Speeds, rates, load factors and carries refuse what their docstrings rule out."""
    with pytest.raises(ValueError, match=told):
        function(**given_arguments)
