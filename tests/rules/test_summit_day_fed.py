"""Summit day fed: water and lunch of a day that visits a summit."""

from functools import partial

import pytest

from solver.problem import PlaceKind, Problem
from tests.rules.calendar_worlds import with_kind
from tests.rules.food_worlds import fed, hard, one, told
from tests.rules.worlds import RequestCase, request_found

RULE = "summit_day_fed"
_case = partial(hard, RULE)
_CLIMB = "strip-c1 c1-c2-c1 c1-strip"
_UP_FIRST = "strip-c1-c2-c1 c1-strip"


def _summit(days: str = _CLIMB, lunch_kcal: int | None = None, **changes: int) -> Problem:
    return one(with_kind(fed(days, lunch_kcal=lunch_kcal), "c2", PlaceKind.SUMMIT), **changes)


CASES = (
    _case("no summit", one(fed(_CLIMB), water_g=0)),
    _case("at", _summit(water_g=2000)),
    _case("a gram less", _summit(water_g=1999), 1),
    _case("summit water at", _summit(water_g=1000, summit_water_g=2000)),
    _case("summit water less", _summit(water_g=3000, summit_water_g=1900), 100),
    _case("lunch at", _summit(water_g=2000, lunch_kcal=1500)),
    _case("lunch less", _summit(water_g=2000, lunch_kcal=1499), 1),
    _case("both", _summit(water_g=1500, lunch_kcal=1000), 500, 500),
    _case("lunch before another day", _summit(_UP_FIRST, water_g=2000, lunch_kcal=1000)),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_summit_days_are_fed(case: RequestCase) -> None:
    """Water lacking a person and energy lacking a set are told once."""
    assert request_found(case.problem, RULE) == case.finds


def test_person_day_and_amounts_are_named() -> None:
    """The words tell person, set, day and what is the least."""
    water, lunch = told(CASES[7].problem, RULE)
    assert "m1 carries 1500 g of water on day 2" in water.message
    assert any("summit water of 2000 g for m1" in words for words in water.instead)
    assert "night set meal of cook group g1 has 1000 kcal" in lunch.message
    assert "1500 kcal is the least" in lunch.message
