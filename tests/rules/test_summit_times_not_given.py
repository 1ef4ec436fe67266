"""Summit times not given: start and turn-round of each summit day."""

from functools import partial

import pytest

from tests.rules.calendar_worlds import soft_case, told
from tests.rules.test_summit_times_kept import summit_day
from tests.rules.worlds import RequestCase, request_found, world

RULE = "summit_times_not_given"
_case = partial(soft_case, RULE)

CASES = (
    _case("both told", summit_day(6.0, 14.0)),
    _case("neither told", summit_day(None, None), 2),
    _case("no turn-round", summit_day(6.0, None), 1),
    _case("no start", summit_day(None, 14.0), 1),
    _case("no summit", world("strip-c1-c2-c1-strip")),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_each_summit_day_tells_its_times(case: RequestCase) -> None:
    """A caution counts the times that a summit day does not tell."""
    assert request_found(case.problem, RULE) == case.finds


def test_the_missing_times_are_named() -> None:
    """The words say which times are missing on which day."""
    (finding,) = told(CASES[1].problem, RULE)
    assert "c2, day 1: the time of the start and of the turn-round is not given" in finding.message
