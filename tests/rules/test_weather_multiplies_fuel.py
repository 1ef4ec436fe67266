"""Weather multiplies fuel: a maker's figure in cold and wind."""

from functools import partial

import pytest

from solver.problem import Container, Problem
from tests.rules.calendar_worlds import numbered
from tests.rules.food_worlds import fed, soft, told, with_containers
from tests.rules.worlds import RequestCase, request_found

RULE = "weather_multiplies_fuel"
_case = partial(soft, RULE)


def _burning(fuel_ml: int = 100, days: str = "strip-c1 c1-strip") -> Problem:
    can = Container("can", "g1", 1_000, 100, 1_500)
    return with_containers(fed(days, fuel_ml=fuel_ml), can)


CASES = (
    _case("no fuel burnt", _burning(0)),
    _case("fuel burnt", _burning(), 400),
    _case("two nights told once", _burning(days="strip-c1 c1 c1-strip"), 400),
    _case("stated", numbered(_burning(), weather_fuel_percent=300), 300),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_weather_is_told_where_fuel_is_burnt(case: RequestCase) -> None:
    """Wherever a stove burns the factor is told once, as stated."""
    assert request_found(case.problem, RULE) == case.finds


def test_the_factor_is_named() -> None:
    """The words tell the factor."""
    (finding,) = told(CASES[1].problem, RULE)
    assert "400 %" in finding.message
