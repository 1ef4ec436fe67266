"""The sentences of the fuel chain."""

from __future__ import annotations

import pytest

from solver.calculators.fuel_chain import fuel_for_water
from solver.calculators.fuel_chain_text import fuel_chain_steps
from solver.calculators.fuels import fuel_named

CAMP = {
    "melted_l": 3.0,
    "boiled_l": 2.0,
    "snow_temperature_c": -15.0,
    "pressure_hpa": 592.91,
    "fuel": fuel_named(name="white_gas"),
}


def test_every_step_of_the_example_is_printed() -> None:
    """The sentences carry the example's numbers from the boiling point to the margin."""
    text = "\n".join(fuel_chain_steps(chain=fuel_for_water(**CAMP)))
    for number in ("85.6 degC", "333.4 kJ/kg", "0.40", "44.9 MJ/kg", "204.5 mL", "12 %"):
        assert number in text


def test_steps_that_are_nothing_are_left_out() -> None:
    """Steam, simmering and priming are told where they are asked for, and only there."""
    plain = "\n".join(fuel_chain_steps(chain=fuel_for_water(**CAMP)))
    more = {"steam_fraction": 0.05, "simmer_minutes_at_sea_level": 5.0, "priming_g": 5.0}
    full = "\n".join(fuel_chain_steps(chain=fuel_for_water(**CAMP | more)))
    for word in ("Steam", "Simmering", "Priming"):
        assert word not in plain
        assert word in full


def test_a_chain_that_cannot_be_worked_out_has_no_steps() -> None:
    """What the chain refuses is never printed."""
    with pytest.raises(ValueError, match="efficiency"):
        fuel_chain_steps(chain=fuel_for_water(**CAMP | {"efficiency": 0}))
