"""Fuel properties against the energy tables and a chemistry library."""

from __future__ import annotations

import pytest

from solver.calculators.canister_gas import GasBlend
from solver.calculators.fuels import fuel_named, gas_blend_fuel
from tests.calculators.published_values import misses, rows

NAMES = ["white_gas", "gasoline", "kerosene", "propane", "n_butane", "isobutane", "ethanol"]


@pytest.mark.parametrize("row", rows("fuel_named"), ids=str)
def test_heating_values_meet_the_tables(row: dict[str, str]) -> None:
    """Each lower heating value lies within 1 % of its table or pure hydrocarbon (independent)."""
    assert not misses(lambda **given: fuel_named(**given).lower_heating_value_mj_per_kg, row)


@pytest.mark.parametrize("name", NAMES)
def test_the_lower_value_is_lower_by_the_steam(name) -> None:
    """The higher value lies 5 to 11 % above the lower one, as for any hydrogen-rich fuel."""
    fuel = fuel_named(name=name)
    ratio = fuel.higher_heating_value_mj_per_kg / fuel.lower_heating_value_mj_per_kg
    assert 1.05 < ratio < 1.11


@pytest.mark.parametrize("name", NAMES)
def test_every_fuel_names_its_source(name) -> None:
    """Each fuel carries a source and one of the statuses."""
    fuel = fuel_named(name=name)
    assert len(fuel.source) > 10
    assert fuel.status in {"read", "quoted", "computed", "memory-unverified"}


@pytest.mark.parametrize("row", rows("gas_blend_fuel"), ids=str)
def test_blends_mix_by_mass(row: dict[str, str]) -> None:
    """A blend's heating value is the mean of its gases by mass."""
    assert not misses(
        lambda blend: gas_blend_fuel(blend=GasBlend(*blend)).lower_heating_value_mj_per_kg, row
    )


def test_a_blends_density_lies_between_its_gases() -> None:
    """Half propane and half isobutane is denser than propane and lighter than isobutane."""
    blend = gas_blend_fuel(blend=GasBlend(0.5, 0.5, 0.0))
    assert 0.508 < blend.density_kg_per_l < 0.563


def test_out_of_range_is_refused() -> None:
    """An unknown fuel is refused with the names that are known."""
    with pytest.raises(ValueError, match="white_gas"):
        fuel_named(name="paraffin wax")
