"""Leg hours not given: hours of each leg walked, told or to be reckoned."""

from functools import partial

import pytest

from solver.problem import Problem
from tests.rules.calendar_worlds import on_legs, soft_case, told
from tests.rules.worlds import RequestCase, request_found, world

RULE = "leg_hours_not_given"
_case = partial(soft_case, RULE)


def _world(**leg: float) -> Problem:
    return on_legs(world("strip-c1-strip"), leg)


CASES = (
    _case("told", _world(hours_outbound=3.0, hours_homeward=1.0)),
    _case("nothing told", _world(), 2),
    _case("one way told", _world(hours_outbound=3.0), 1),
    _case("reckoned from distance and ascent", _world(distance_m=5_000, ascent_m=500)),
    _case("no ascent", _world(distance_m=5_000), 2),
    _case("no distance", _world(ascent_m=500), 2),
    _case("further than the method reaches", _world(distance_m=90_000, ascent_m=500), 2),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_the_hours_of_each_leg_can_be_known(case: RequestCase) -> None:
    """A caution counts the directions of a leg whose hours nobody knows."""
    assert request_found(case.problem, RULE) == case.finds


def test_the_leg_and_the_direction_are_named() -> None:
    """The words say which leg and which way."""
    (finding,) = told(CASES[2].problem, RULE)
    assert finding.message.startswith("leg strip-c1: the hours homeward are not given")


def test_a_leg_that_nobody_walks_is_not_told() -> None:
    """Hours of a leg beyond the furthest place reached are no matter."""
    reached = world("strip-c1-strip strip-c1-c2-c1-strip")
    assert len(told(soft_case(RULE, "", reached).problem, RULE)) == 2
