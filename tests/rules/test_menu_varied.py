"""Menu varied: dinners come in turn."""

from functools import partial

import pytest

from tests.rules.food_worlds import fed, soft, told
from tests.rules.worlds import RequestCase, request_found

RULE = "menu_varied"
_case = partial(soft, RULE)
_FOUR = "strip-c1 c1 c1 c1 c1-strip"

CASES = (
    _case("not told", fed(_FOUR)),
    _case("three in turn", fed(_FOUR, dinner_kinds=3)),
    _case("two in turn", fed(_FOUR, dinner_kinds=2), 2),
    _case("one dinner", fed(_FOUR, dinner_kinds=1), 3),
    _case("one night", fed(dinner_kinds=1)),
    _case("four in turn", fed(_FOUR, dinner_kinds=4)),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_dinners_do_not_come_again_too_soon(case: RequestCase) -> None:
    """Dinners that come again before the third night are counted."""
    assert request_found(case.problem, RULE) == case.finds


def test_set_dinners_and_day_are_named() -> None:
    """The words tell set, dinners in turn and the first night too soon."""
    (finding,) = told(CASES[2].problem, RULE)
    assert "night set meal of cook group g1 has 2 dinners in turn" in finding.message
    assert "first on day 3" in finding.message
    assert "pack 3 different dinners in turn" in finding.instead
