"""Big step prepared: nights at the lower camp and a carry before a long step."""

from functools import partial

import pytest

from tests.rules.calendar_worlds import climb, hard_case, numbered, told
from tests.rules.worlds import RequestCase, request_found

RULE = "big_step_prepared"
_case = partial(hard_case, RULE)

AT_ONCE = "strip-c1 c1-c2 c2-c1-strip"
RESTED = "strip-c1 c1 c1-c2 c2-c1-strip"
PREPARED = "strip-c1 c1-c2-c1 c1-c2 c2-c1-strip"
CARRIED_AT_ONCE = "strip-c1-c2-c1 c1-c2 c2-c1-strip"
CACHED = "strip-c1 c1-c2-c1 c1-c2-c3 c3-c2-c1-strip"

CASES = (
    _case("step: at", climb(AT_ONCE, 2000, 3000, 3500)),
    _case("step: a metre above, not prepared", climb(AT_ONCE, 2000, 3000, 3501), 1, 351),
    _case("no higher than the threshold", climb(AT_ONCE, 2000, 2400, 3000)),
    _case("prepared", climb(PREPARED, 2000, 3000, 3501)),
    _case("rested and not carried", climb(RESTED, 2000, 3000, 3501), 351),
    _case("carried and not rested", climb(CARRIED_AT_ONCE, 2000, 3000, 3501), 1),
    _case("carry: just near enough", climb(CACHED, 2000, 3000, 3351, 3501)),
    _case("carry: a metre too low", climb(CACHED, 2000, 3000, 3350, 3501), 1),
    _case(
        "a night more is asked for",
        numbered(climb(PREPARED, 2000, 3000, 3501), big_step_nights=3),
        1,
    ),
    _case(
        "back to where one has slept before",
        climb("strip-c1 c1-c2-c1 c1-c2 c2-c1 c1-c2 c2-c1-strip", 2000, 3000, 3501),
    ),
    _case(
        "nights above the lower camp count as nights at it",
        climb("strip-c1 c1-c2 c2-c1 c1-c2-c3 c3-c2-c1-strip", 2000, 3000, 3500, 3620),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_long_step_follows_rest_and_a_carry(case: RequestCase) -> None:
    """A step above the limit has its nights below and its carry; a shorter one needs neither."""
    assert request_found(case.problem, RULE) == case.finds


def test_the_step_is_named_with_what_would_do() -> None:
    """What is missing is told with the two camps, the day and what would be allowed."""
    nights, carry = told(CASES[1].problem, RULE)
    assert "c1 to c2 on day 2, m1: a step of 501 m" in nights.message
    assert (nights.unit, carry.unit) == ("nights", "m")
    assert "stay 2 nights at c1" in nights.instead
    assert "carry to c2 and back to sleep, on a day before" in carry.instead
