"""Rations against need, by height and appetite."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.calculators.ration_check import (
    eaten_energy_kcal,
    elevation_band,
    energy_shortfall_kcal,
    ration_target_kcal,
)
from tests.calculators.published_values import misses, rows

FUNCTIONS = [eaten_energy_kcal, energy_shortfall_kcal, elevation_band, ration_target_kcal]
PUBLISHED = [(function, row) for function in FUNCTIONS for row in rows(function.__name__)]
MEAL = {
    "offered_kcal": 4000,
    "height_m": 4000,
    "appetite_loss_from_m": 3000,
    "appetite_loss_fraction_per_km": 0.1,
}


@pytest.mark.parametrize(("function", "row"), PUBLISHED)
def test_model_meets_its_figures(function, row) -> None:
    """Each function gives the figures of its file within their tolerance."""
    assert not misses(function, row)


def test_targets_fall_with_height() -> None:
    """A ration for a higher band offers less, since appetite falls, and a storm ration least."""
    for bound in ("low", "high"):
        targets = [
            ration_target_kcal(ration=ration, bound=bound)
            for ration in ("low", "mid", "high", "storm")
        ]
        assert targets == sorted(targets, reverse=True)


def test_low_band_lies_among_measured_days() -> None:
    """The low band's target lies within 4173 +/- 848 kcal, measured on an ascent to 6170 m.

    Wilderness Environ Med 2013;24:337-344, read.
    """
    for bound in ("low", "high"):
        assert abs(ration_target_kcal(ration="low", bound=bound) - 4173) <= 848


@given(height_m=st.floats(0, 8000), loss=st.floats(0, 0.5))
def test_less_is_eaten_higher_up(height_m: float, loss: float) -> None:
    """Higher up no more is eaten, never more than offered and never less than a quarter."""
    here = eaten_energy_kcal(**MEAL | {"height_m": height_m, "appetite_loss_fraction_per_km": loss})
    higher = eaten_energy_kcal(
        **MEAL | {"height_m": height_m + 500, "appetite_loss_fraction_per_km": loss}
    )
    assert 1000 <= higher <= here <= 4000


@given(eaten=st.floats(0, 10_000), need=st.floats(0, 10_000))
def test_shortfall_is_what_is_missing(eaten: float, need: float) -> None:
    """Eaten food and shortfall together cover the need, and a surplus is no shortfall."""
    missing = energy_shortfall_kcal(eaten_kcal=eaten, need_kcal=need)
    assert missing >= 0
    assert eaten + missing >= need or eaten + missing == pytest.approx(need)
    if eaten >= need:
        assert missing == 0


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"offered_kcal": -1}, "offered_kcal"),
        ({"height_m": 8850}, "height_m"),
        ({"appetite_loss_from_m": -1}, "appetite_loss_from_m"),
        ({"appetite_loss_fraction_per_km": 15}, "appetite_loss_fraction_per_km"),
    ],
)
def test_appetite_refuses_what_is_out_of_range(change, told) -> None:
    """The appetite line refuses heights off the earth and percentages for fractions."""
    with pytest.raises(ValueError, match=told):
        eaten_energy_kcal(**MEAL | change)


@pytest.mark.parametrize(
    ("function", "given_arguments", "told"),
    [
        (
            elevation_band,
            {"height_m": 9000, "mid_above_m": 2500, "high_above_m": 4267},
            "height_m",
        ),
        (
            elevation_band,
            {"height_m": 3000, "mid_above_m": 4267, "high_above_m": 2500},
            "high_above_m: 2500 m was given; allowed is 4267 to 8849 m.",
        ),
        (ration_target_kcal, {"ration": "lunch", "bound": "low"}, "ration"),
        (energy_shortfall_kcal, {"eaten_kcal": -1, "need_kcal": 1}, "eaten_kcal"),
        (energy_shortfall_kcal, {"eaten_kcal": 1, "need_kcal": 15_001}, "need_kcal"),
    ],
)
def test_model_refuses_what_is_out_of_range(function, given_arguments, told) -> None:
    """Each function refuses what lies outside the range that its docstring names."""
    with pytest.raises(ValueError, match=told):
        function(**given_arguments)
