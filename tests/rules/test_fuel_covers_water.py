"""Fuel covers water: fuel for the water that is to be melted and boiled.

The heats are those of the release IAPWS-06 for ice (333.4 kJ to melt a kilogram) and of liquid
water by CoolProp (42.0 kJ from 0 to 10 degC), the heating value of white gas 44.9 MJ/kg as in the
table of the US Department of Energy; put together by hand beside each case.
"""

from functools import partial
from typing import Any

import pytest

from solver.problem import Container, FuelKind, Problem
from tests.rules.calendar_worlds import at_elevations
from tests.rules.food_worlds import fed, soft, told, with_conditions, with_containers
from tests.rules.worlds import RequestCase, request_found

RULE = "fuel_covers_water"
_case = partial(soft, RULE)


def _watered(fuel_ml: int, height_m: int = 1_000, **conditions: Any) -> Problem:
    can = Container("can", "g1", 1_000, 100, 1_500)
    problem = at_elevations(with_containers(fed(fuel_ml=fuel_ml), can), 0, height_m)
    return with_conditions(problem, **conditions)


_MELT: dict[str, Any] = {"melted_l": 4.0, "boiled_l": 0.0}
"""4 x (333.4 + 42.0) kJ / (44.9 kJ/g x 0.55) / 0.7 g/mL = 86.87 mL."""

_BOIL: dict[str, Any] = {"melted_l": 2.0, "boiled_l": 2.0}

CASES = (
    _case("water not told", _watered(10)),
    _case("half of it told", _watered(10, melted_l=4.0)),
    _case("at", _watered(87, **_MELT)),
    _case("a millilitre less", _watered(86, **_MELT), 1),
    _case("at, a told stove of 40 %", _watered(120, **_MELT, stove_efficiency=0.40)),
    _case("below, a told stove of 40 %", _watered(119, **_MELT, stove_efficiency=0.40), 1),
    # Kerosene has 43.8 MJ/kg in the IPCC's guidelines of 2006: 89.05 mL.
    _case("at, kerosene", _watered(90, **_MELT, fuel_kind=FuelKind.KEROSENE)),
    _case("below, kerosene", _watered(88, **_MELT, fuel_kind=FuelKind.KEROSENE), 2),
    # Propane has 46.3 MJ/kg and isobutane 45.6, a fifth and the rest 45.7: 85.3 mL.
    _case("below, gas", _watered(80, **_MELT, fuel_kind=FuelKind.CANISTER_GAS), 6),
    # 15 K x 2.04 kJ/(kg K) more a litre: 93.95 mL.
    _case("colder snow takes more", _watered(87, **_MELT, snow_temperature_c=-15.0), 7),
    # At 1000 m water boils at 96.7 degC: 2 x 375.4 + 2 x (333.4 + 405.1) kJ give 128.9 mL.
    _case("boiling takes more", _watered(87, **_BOIL), 42),
    # At 4000 m it boils at 86.6 degC: 2 x 375.4 + 2 x (333.4 + 362.8) kJ give 124.0 mL.
    _case("boiling takes less where water boils cooler", _watered(87, 4_000, **_BOIL), 37),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_fuel_covers_the_water(case: RequestCase) -> None:
    """Millilitres that a night set lacks for the heat of its water are told."""
    assert request_found(case.problem, RULE) == case.finds


def test_set_place_and_fuel_are_named() -> None:
    """The words tell set, place, fuel planned and fuel needed."""
    (finding,) = told(CASES[3].problem, RULE)
    assert "night set meal of cook group g1 at c1 has 86 mL of fuel" in finding.message
    assert "takes 87 mL" in finding.message
