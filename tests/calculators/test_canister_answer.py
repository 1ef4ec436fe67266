"""What is said about a gas canister."""

from __future__ import annotations

import pytest

from solver.calculators.canister_answer import canister_answer, self_cooling_k_per_min
from solver.calculators.canister_gas import GasBlend
from tests.calculators.published_values import misses, rows

BUTANE_BLEND = GasBlend(propane_mass_fraction=0.25, n_butane_mass_fraction=0.75)


@pytest.mark.parametrize("row", rows("self_cooling_k_per_min"), ids=str)
def test_self_cooling_meets_the_worked_value(row: dict[str, str]) -> None:
    """Feeding 150 g/h cools a full 250 g canister by 1.4 K/min when no heat comes in."""
    assert not misses(self_cooling_k_per_min, row)


@pytest.mark.parametrize("row", rows("canister_answer"), ids=str)
def test_answer_carries_the_share_left(row: dict[str, str]) -> None:
    """The share that stays inside is that of the depletion."""
    assert not misses(
        lambda blend, **given: canister_answer(blend=GasBlend(*blend), **given).fraction_left, row
    )


@pytest.mark.parametrize(
    ("canister_c", "words"),
    [
        (-20, ["stops feeding at -18 degC at this camp", "53 % of its gas stays", "liquid fuel"]),
        (-40, ["stops feeding at -18 degC at this camp", "even a full canister is dead", "bowl"]),
        (-12, ["feeds at -12 degC to the last, but weakly", "bowl of water"]),
        (5, ["feeds at 5 degC to the last and burns well"]),
    ],
)
def test_the_sentence_fits_the_canister(canister_c: float, words: list[str]) -> None:
    """A butane blend at 593 hPa is told to be dead, half dead, weak or well by its temperature."""
    answer = canister_answer(
        blend=BUTANE_BLEND, pressure_hpa=593, canister_temperature_c=canister_c
    )
    for word in words:
        assert word in answer.sentence


def test_a_half_used_canister_stops_sooner_than_a_full_one() -> None:
    """Half its gas left, a blend stops at a warmer temperature, and works well warmer still."""
    answer = canister_answer(blend=BUTANE_BLEND, pressure_hpa=593, canister_temperature_c=-20)
    assert answer.full_stop_temperature_c < answer.half_stop_temperature_c - 10
    assert answer.half_stop_temperature_c < answer.works_well_above_c


def test_isobutane_works_well_above_its_worked_temperature() -> None:
    """At 4300 m isobutane stops at -24.7 degC and, by 300 hPa more, works well from -14.9 degC."""
    isobutane = GasBlend(isobutane_mass_fraction=1.0)
    answer = canister_answer(blend=isobutane, pressure_hpa=592.91, canister_temperature_c=-20)
    assert answer.half_stop_temperature_c == pytest.approx(-24.7, abs=0.06)
    assert answer.works_well_above_c == pytest.approx(-14.9, abs=0.06)


@pytest.mark.parametrize(
    ("function", "arguments", "told"),
    [
        (
            canister_answer,
            {"blend": BUTANE_BLEND, "pressure_hpa": 59_300, "canister_temperature_c": -20},
            "pressure_hpa",
        ),
        (
            canister_answer,
            {"blend": BUTANE_BLEND, "pressure_hpa": 593, "canister_temperature_c": -61},
            "temperature_c",
        ),
        (
            self_cooling_k_per_min,
            {"burn_g_per_h": 501, "gas_g": 250, "canister_g": 120},
            "burn_g_per_h",
        ),
        (
            self_cooling_k_per_min,
            {"burn_g_per_h": 150, "gas_g": 0, "canister_g": 120},
            "gas_g",
        ),
    ],
)
def test_out_of_range_is_refused(function, arguments, told) -> None:
    """Pressures in pascals and empty canisters are refused by name."""
    with pytest.raises(ValueError, match=told):
        function(**arguments)
