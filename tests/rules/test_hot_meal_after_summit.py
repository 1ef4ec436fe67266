"""Hot meal after summit: a boil-only set waits for people back from a summit."""

from functools import partial

import pytest

from solver.problem import PlaceKind, Problem
from tests.rules.calendar_worlds import with_kind
from tests.rules.food_worlds import fed, soft, told
from tests.rules.worlds import RequestCase, request_found

RULE = "hot_meal_after_summit"
_case = partial(soft, RULE)
_CLIMB = "strip-c1 c1-c2-c1 c1-strip"


def _summit(days: str, simmers: bool | None = None) -> Problem:
    return with_kind(fed(days, simmers=simmers), "c2", PlaceKind.SUMMIT)


CASES = (
    _case("no summit", fed(_CLIMB, simmers=True)),
    _case("only boils", _summit(_CLIMB, simmers=False)),
    _case("not told", _summit(_CLIMB)),
    _case("simmers", _summit(_CLIMB, simmers=True), 1),
    _case("two summit days", _summit("strip-c1 c1-c2-c1 c1-c2-c1 c1-strip", simmers=True), 2),
    _case("summit on the last day", _summit("strip-c1 c1-c2-c1-strip", simmers=True)),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_hot_meal_waits_after_the_summit(case: RequestCase) -> None:
    """Nights after a summit with a set that simmers are counted."""
    assert request_found(case.problem, RULE) == case.finds


def test_set_place_and_day_are_named() -> None:
    """The words tell set, place and day."""
    (finding,) = told(CASES[3].problem, RULE)
    assert "night set meal of cook group g1 at c1 simmers" in finding.message
    assert "day 2" in finding.message
