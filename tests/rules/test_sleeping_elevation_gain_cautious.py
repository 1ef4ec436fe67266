"""Sleeping elevation gain cautious: 300 m a night in the mean above 2500 m is remarked beyond."""

from functools import partial

import pytest

from tests.rules.calendar_worlds import climb, numbered, soft_case, told
from tests.rules.worlds import RequestCase, request_found

RULE = "sleeping_elevation_gain_cautious"
_case = partial(soft_case, RULE)

ONE_NIGHT = "strip-c1 c1-c2 c2-c1-strip"
TWO_NIGHTS = "strip-c1 c1 c1-c2 c2-c1-strip"
IN_STEPS = "strip-c1 c1-c2 c2-c3 c3-c2-c1-strip"

CASES = (
    _case("at", climb(ONE_NIGHT, 2000, 2500, 2800)),
    _case("a metre above", climb(ONE_NIGHT, 2000, 2500, 2801), 1),
    _case("two nights below carry twice the step", climb(TWO_NIGHTS, 2000, 2500, 3100)),
    _case("half a metre above counts as one", climb(TWO_NIGHTS, 2000, 2500, 3101), 1),
    _case("no higher than the threshold", climb(ONE_NIGHT, 0, 1000, 2500)),
    _case("the hard pace is too fast for it", climb(ONE_NIGHT, 2000, 2500, 3000), 200),
    _case("the worst night is told", climb(IN_STEPS, 2000, 2500, 2900, 3100), 100),
    _case("a stated pace", numbered(climb(ONE_NIGHT, 2000, 2500, 2801), cautious_gain_m=301)),
    _case(
        "a stated threshold",
        numbered(climb(ONE_NIGHT, 2000, 2500, 3000), cautious_threshold_m=3000),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_fast_pace_is_remarked(case: RequestCase) -> None:
    """The worst mean gain above the threshold is remarked, and forbids no plan."""
    assert request_found(case.problem, RULE) == case.finds


def test_the_night_and_the_pace_are_named() -> None:
    """The words name place, people, day and both paces."""
    (finding,) = told(CASES[6].problem, RULE)
    assert "c2, m1: sleeping there on the night of day 2" in finding.message
    assert "mean gain of 400 m a night above 2500 m; the cautious pace is 300 m" in finding.message
