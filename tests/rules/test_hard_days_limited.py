"""Hard days limited: at most so many days running with long hours."""

from functools import partial

import pytest

from solver.problem import Problem
from tests.rules.calendar_worlds import on_legs, soft_case, told
from tests.rules.worlds import RequestCase, request_found, world

RULE = "hard_days_limited"
_case = partial(soft_case, RULE)

THREE = "strip-c1 c1-strip strip-c1 c1 c1-strip"
FOUR = "strip-c1 c1-strip strip-c1 c1-strip"


def _world(days: str, hours_outbound: float | None, hours_homeward: float | None = 4.0) -> Problem:
    return on_legs(
        world(days), {"hours_outbound": hours_outbound, "hours_homeward": hours_homeward}
    )


CASES = (
    _case("three hard days and a rest", _world(THREE, 4.0)),
    _case("four hard days", _world(FOUR, 4.0), 1),
    _case("days a hair short of hard", _world(FOUR, 3.995)),
    _case("days just hard", _world(FOUR, 4.005, 4.0), 1),
    _case("hours not known count as hard", _world(FOUR, None, None), 1),
    _case("a day's trips add up", _world("strip-c1-strip " * 4, 2.0, 2.0), 1),
    _case("two runs, each told", _world(FOUR + " strip " + FOUR + " strip-c1-strip", 4.0), 1, 2),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_hard_days_running_are_few(case: RequestCase) -> None:
    """A run of hard days is no longer than its limit, counted in days above it."""
    assert request_found(case.problem, RULE) == case.finds


def test_the_days_are_named_with_the_one_to_rest_on() -> None:
    """The words tell first and last day of the run and which day to make easy."""
    (finding,) = told(CASES[1].problem, RULE)
    assert "days 1 to 4, m1: 4 hard days running" in finding.message
    assert finding.instead == ("make day 4 a rest day or a short one",)
