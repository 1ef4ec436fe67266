"""How cold fuel gets where people sleep."""

import pytest

from solver.checker.ledger.facts import read_facts
from solver.checker.queries.cold_fuel import (
    burns_gas,
    cooking_nights,
    degrees_up,
    gas_temperatures,
)
from solver.problem import FuelKind
from tests.checker.replaying import burning
from tests.rules.food_worlds import with_conditions, with_nights


def test_gas_is_as_cold_as_the_night_unless_told():
    """The night at c1 is -15 degC; a gas temperature that is given comes before it."""
    cold = with_nights(burning(100), c1=-15.0)
    gas = read_facts(with_conditions(cold, fuel_kind=FuelKind.CANISTER_GAS))
    warmed = read_facts(
        with_conditions(cold, fuel_kind=FuelKind.CANISTER_GAS, canister_temperature_c=-2.0)
    )
    assert cooking_nights(gas) == ((1, "c1"),)
    assert gas_temperatures(gas) == (("c1", -15.0),)
    assert gas_temperatures(warmed) == (("c1", -2.0),)


def test_liquid_fuel_has_no_gas_temperature():
    """Where nothing is said of the fuel, it is liquid."""
    facts = read_facts(with_nights(burning(100), c1=-15.0))
    assert not burns_gas(facts)
    assert gas_temperatures(facts) == ()


def test_nights_without_a_burning_stove_are_left_out():
    """A set that burns nothing makes no cooking night."""
    assert cooking_nights(read_facts(burning(0))) == ()


@pytest.mark.parametrize(("difference_c", "degrees"), [(0.1, 1), (1.0, 1), (1.2, 2), (3.0, 3)])
def test_a_difference_is_told_in_whole_degrees(difference_c, degrees):
    """Rounded up, and at least one degree."""
    assert degrees_up(difference_c) == degrees
