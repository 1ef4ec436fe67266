"""Fuel rate in band: fuel of a person and night."""

from dataclasses import replace
from functools import partial

import pytest

from solver.problem import Container, FuelKind, Problem
from tests.rules.food_worlds import fed, soft, told, with_conditions, with_containers
from tests.rules.worlds import RequestCase, request_found

RULE = "fuel_rate_in_band"
_case = partial(soft, RULE)


def _case_world(fuel_ml: int) -> Problem:
    problem = fed(fuel_ml=fuel_ml)
    can = Container("can", "g1", 1_000, 100, 1_500)
    return with_containers(problem, can)


def _gas(mass_g: int) -> Problem:
    problem = with_conditions(_case_world(mass_g * 2), fuel_kind=FuelKind.CANISTER_GAS)
    return replace(problem, fuel_density_g_per_l=500)


CASES = (
    _case("least", _case_world(167)),
    _case("too little", _case_world(166), 1),
    _case("most", _case_world(500)),
    _case("too much", _case_world(501), 1),
    _case("kerosene too", with_conditions(_case_world(147), fuel_kind=FuelKind.KEROSENE), 20),
    _case("gas, least", _gas(76)),
    _case("gas, too little", _gas(75), 1),
    _case("gas, most", _gas(160)),
    _case("gas, too much", _gas(161), 1),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_fuel_is_in_its_band(case: RequestCase) -> None:
    """Millilitres of liquid or grams of gas outside the band are told."""
    assert request_found(case.problem, RULE) == case.finds


def test_set_rate_and_band_are_named() -> None:
    """The words tell set, what it burns and the band."""
    (finding,) = told(CASES[6].problem, RULE)
    assert "night set meal of cook group g1 burns 75 g for a person and night" in finding.message
    assert "76 to 160 g" in finding.message
