"""Stove needs air: vents beside a burning stove."""

from functools import partial

import pytest

from solver.problem import Container, Problem
from tests.rules.calendar_worlds import numbered
from tests.rules.food_worlds import fed, soft, told, with_containers
from tests.rules.worlds import RequestCase, request_found

RULE = "stove_needs_air"
_case = partial(soft, RULE)


def _burning(fuel_ml: int = 100, days: str = "strip-c1 c1-strip") -> Problem:
    can = Container("can", "g1", 1_000, 100, 1_500)
    return with_containers(fed(days, fuel_ml=fuel_ml), can)


CASES = (
    _case("no fuel burnt", _burning(0)),
    _case("fuel burnt", _burning(), 50),
    _case("two nights told once", _burning(days="strip-c1 c1 c1-strip"), 50),
    _case("stated", numbered(_burning(), vent_cm2=60), 60),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_air_is_told_where_a_stove_burns(case: RequestCase) -> None:
    """Wherever a stove burns the vents are told once, as stated."""
    assert request_found(case.problem, RULE) == case.finds


def test_gas_and_vents_are_named() -> None:
    """The words tell the gas and the vents."""
    (finding,) = told(CASES[1].problem, RULE)
    assert "carbon monoxide" in finding.message
    assert "50 cm2 each" in finding.message
