"""Carried high first: near the height of the new camp on a day before the move."""

from functools import partial

import pytest

from tests.rules.calendar_worlds import climb, soft_case, told
from tests.rules.worlds import RequestCase, request_found

RULE = "carried_high_first"
_case = partial(soft_case, RULE)

AT_ONCE = "strip-c1 c1-c2 c2-c1-strip"
CARRIED = "strip-c1 c1-c2-c1 c1-c2 c2-c1-strip"

CASES = (
    _case("near enough from the camp itself", climb(AT_ONCE, 2000, 3000, 3150)),
    _case("a metre too far", climb(AT_ONCE, 2000, 3000, 3151), 1),
    _case("carried on the day before", climb(CARRIED, 2000, 3000, 3900)),
    _case("no higher than the threshold", climb(AT_ONCE, 1000, 2000, 3000)),
    _case(
        "a carry on the day of arrival", climb("strip-c1-c2-c1 c1-c2 c2-c1-strip", 0, 3000, 3500)
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_party_was_near_the_height_before_it_sleeps_there(case: RequestCase) -> None:
    """Days before the move reach the new height or stop just short of it."""
    assert request_found(case.problem, RULE) == case.finds


def test_the_camp_and_the_height_are_named() -> None:
    """The words tell the camp and how high the party had been."""
    (finding,) = told(CASES[1].problem, RULE)
    assert "before they sleep at 3151 m they were no higher than 3000 m" in finding.message
    assert finding.instead == ("carry to within 150 m of c2 on a day before",)
