"""Cans, bottles and canisters, counted up."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from solver.calculators.fuel_containers import (
    BOTTLE_1_L,
    CAN_1_L,
    CAN_4_L,
    CANISTER_110_G,
    CANISTER_230_G,
    CANISTER_450_G,
    gas_canisters,
    liquid_containers,
)
from tests.calculators.published_values import misses, rows

LIQUID = {container.name: container for container in (CAN_4_L, CAN_1_L, BOTTLE_1_L)}
GAS = {canister.name: canister for canister in (CANISTER_110_G, CANISTER_230_G, CANISTER_450_G)}


@pytest.mark.parametrize("row", rows("liquid_containers"), ids=str)
def test_cans_are_counted_up(row: dict[str, str]) -> None:
    """A millilitre over the fill limits takes another can, and open cans are used first."""
    assert not misses(
        lambda container, **given: liquid_containers(container=LIQUID[container], **given).new, row
    )


@pytest.mark.parametrize("row", rows("gas_canisters"), ids=str)
def test_canisters_are_counted_up(row: dict[str, str]) -> None:
    """A gram over takes another canister, and gas that cold keeps inside does not count."""
    assert not misses(
        lambda canister, **given: gas_canisters(canister=GAS[canister], **given).new, row
    )


@pytest.mark.parametrize(
    ("container", "capacity_ml", "tare_g"),
    [(CAN_4_L, 4000, 350), (CAN_1_L, 1000, 130), (BOTTLE_1_L, 1000, 190)],
)
def test_liquid_containers_have_their_usual_masses(container, capacity_ml, tare_g) -> None:
    """Cans and bottles weigh 85 to 190 g for each litre, as is common practice."""
    assert (container.capacity_ml, container.tare_g) == (capacity_ml, tare_g)
    assert 85 <= 1000 * tare_g / capacity_ml <= 190


@pytest.mark.parametrize(
    ("canister", "gas_g", "tare_g"),
    [(CANISTER_110_G, 110, 100), (CANISTER_230_G, 230, 150), (CANISTER_450_G, 450, 215)],
)
def test_canisters_have_their_usual_masses(canister, gas_g, tare_g) -> None:
    """Canisters hold and weigh what is common practice."""
    assert (canister.gas_g, canister.tare_g) == (gas_g, tare_g)


def test_pressure_bottles_keep_a_quarter_of_air() -> None:
    """A pressure bottle is filled to three quarters (read)."""
    assert BOTTLE_1_L.fill_limit == 0.75


def test_gross_is_fuel_and_tare() -> None:
    """Two full 4 L cans weigh 7600 mL at 0.725 kg/L and twice 350 g: 6210 g."""
    cans = liquid_containers(fuel_ml=7600, container=CAN_4_L, density_kg_per_l=0.725)
    assert (cans.new, cans.tare_g) == (2, 700)
    assert cans.gross_g == pytest.approx(6210)
    assert cans.spare == pytest.approx(0)


@given(fuel_ml=st.floats(0, 50_000), opened_ml=st.floats(0, 5000), least=st.integers(0, 4))
def test_fuel_is_always_covered(fuel_ml: float, opened_ml: float, least: int) -> None:
    """New and open containers hold the fuel, with less than a can to spare beyond the least."""
    cans = liquid_containers(
        fuel_ml=fuel_ml,
        container=CAN_1_L,
        density_kg_per_l=0.725,
        opened_ml=opened_ml,
        at_least=least,
    )
    assert cans.from_open + cans.in_new >= fuel_ml - 1e-3
    assert cans.new <= max(least, (fuel_ml - cans.from_open) / 950 + 1)


@given(gas_g=st.floats(0, 5000), usable=st.floats(0.07, 1))
def test_less_usable_gas_never_needs_fewer(gas_g: float, usable: float) -> None:
    """A hundredth less of usable gas never takes fewer canisters."""
    here = gas_canisters(gas_g=gas_g, canister=CANISTER_230_G, usable_fraction=usable)
    less = gas_canisters(gas_g=gas_g, canister=CANISTER_230_G, usable_fraction=usable - 0.01)
    assert here.new <= less.new
    assert here.spare >= -1e-6


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"fuel_ml": -1}, "fuel_ml"),
        ({"opened_ml": -1}, "opened_ml"),
        ({"at_least": -1}, "at_least"),
        ({"density_kg_per_l": 725}, "density_kg_per_l"),
        ({"container": replace(CAN_4_L, fill_limit=1.0)}, "fill_limit"),
        ({"container": replace(CAN_4_L, capacity_ml=4)}, "capacity_ml"),
    ],
)
def test_liquid_out_of_range_is_refused(change, told) -> None:
    """Cans filled to the brim and densities in g/L are refused by name."""
    given_now = {"fuel_ml": 1000, "container": CAN_4_L, "density_kg_per_l": 0.725}
    with pytest.raises(ValueError, match=told):
        liquid_containers(**given_now | change)


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"gas_g": -1}, "gas_g"),
        ({"opened_g": -1}, "opened_g"),
        ({"usable_fraction": 0.04}, "liquid fuel"),
        ({"canister": replace(CANISTER_230_G, gas_g=0.23)}, "gas_g of the canister"),
    ],
)
def test_gas_out_of_range_is_refused(change, told) -> None:
    """Canisters that hardly feed, and canisters in kilograms, are refused with what to do."""
    with pytest.raises(ValueError, match=told):
        gas_canisters(**{"gas_g": 500, "canister": CANISTER_230_G} | change)
