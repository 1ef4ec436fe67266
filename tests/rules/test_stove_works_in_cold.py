"""Stove works in cold: gas where it still burns upside down."""

from functools import partial

import pytest

from solver.problem import Container, FuelKind, Problem
from tests.rules.food_worlds import fed, hard, told, with_conditions, with_containers, with_nights
from tests.rules.worlds import RequestCase, request_found

RULE = "stove_works_in_cold"
_case = partial(hard, RULE)


def _gas(fuel_ml: int = 100, told_c: float | None = None, **nights_c: float) -> Problem:
    can = Container("can", "g1", 1_000, 100, 1_500)
    problem = with_nights(with_containers(fed(fuel_ml=fuel_ml), can), **nights_c)
    return with_conditions(problem, fuel_kind=FuelKind.CANISTER_GAS, canister_temperature_c=told_c)


CASES = (
    _case("at", _gas(c1=-18.0)),
    _case("a hair colder", _gas(c1=-18.005), 1),
    _case("two degrees and a half colder", _gas(c1=-20.5), 3),
    _case("not told how cold", _gas()),
    _case("kept warm", _gas(told_c=-18.0, c1=-40.0)),
    _case("told colder than the night", _gas(told_c=-19.0, c1=0.0), 1),
    _case("cold where nobody cooks", _gas(strip=-40.0)),
    _case("no fuel burnt", _gas(fuel_ml=0, c1=-40.0)),
    _case("liquid fuel", with_conditions(_gas(c1=-40.0), fuel_kind=FuelKind.WHITE_GAS)),
    _case("kind not told", with_conditions(_gas(c1=-40.0))),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_gas_is_burnt_where_it_still_works(case: RequestCase) -> None:
    """Degrees below what gas stands upside down are told by place, rounded up."""
    assert request_found(case.problem, RULE) == case.finds


def test_place_and_temperatures_are_named() -> None:
    """The words tell place, temperature and limit, and what to do."""
    (finding,) = told(CASES[2].problem, RULE)
    assert "canister gas at c1 is as cold as -20.5 degC" in finding.message
    assert "-18 degC" in finding.message
    assert len(finding.instead) == 2
