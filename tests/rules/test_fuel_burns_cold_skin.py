"""Fuel burns cold skin: liquid fuel on cold nights."""

from functools import partial

import pytest

from solver.problem import Container, FuelKind, Problem
from tests.rules.food_worlds import fed, soft, told, with_conditions, with_containers, with_nights
from tests.rules.worlds import RequestCase, request_found

RULE = "fuel_burns_cold_skin"
_case = partial(soft, RULE)


def _burning(fuel_ml: int = 100, days: str = "strip-c1 c1-strip") -> Problem:
    can = Container("can", "g1", 1_000, 100, 1_500)
    return with_containers(fed(days, fuel_ml=fuel_ml), can)


CASES = (
    _case("no fuel burnt", with_nights(_burning(0), c1=-20.0)),
    _case("at", with_nights(_burning(), c1=0.0)),
    _case("a hair colder", with_nights(_burning(), c1=-0.005), 1),
    _case("a hair warmer", with_nights(_burning(), c1=0.005)),
    _case("not told how cold", _burning(), 1),
    _case("two nights", with_nights(_burning(days="strip-c1 c1 c1-strip"), c1=-9.0), 2),
    _case(
        "gas", with_conditions(with_nights(_burning(), c1=-20.0), fuel_kind=FuelKind.CANISTER_GAS)
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_cold_fuel_is_told_by_nights(case: RequestCase) -> None:
    """Nights on which liquid fuel is or may be cold are counted once."""
    assert request_found(case.problem, RULE) == case.finds


def test_first_night_and_gloves_are_named() -> None:
    """The words tell the first night, its place and gloves."""
    (finding,) = told(CASES[2].problem, RULE)
    assert "first on day 1 at c1" in finding.message
    assert "gloves" in finding.message
