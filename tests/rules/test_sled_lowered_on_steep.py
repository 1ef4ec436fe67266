"""Sled lowered on steep: a caution for legs on which a sled would run away downhill."""

from dataclasses import replace
from functools import partial

import pytest

from solver.problem import Calendar
from tests.rules.calendar_worlds import soft_case, told
from tests.rules.test_sled_slope_limited import sled_world
from tests.rules.worlds import RequestCase, request_found

RULE = "sled_lowered_on_steep"
_case = partial(soft_case, RULE)

CASES = (
    _case("at", sled_world(20.0)),
    _case("a hair above", sled_world(20.01), 1),
    _case("a degree above", sled_world(21.0), 1),
    _case("five degrees above", sled_world(25.0), 5),
    _case("not told", sled_world(None)),
    _case("no sled", sled_world(25.0, sled=False)),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_sled_is_held_on_a_steep_way_down(case: RequestCase) -> None:
    """A caution counts the degrees above the limit on legs that sleds are hauled down."""
    assert request_found(case.problem, RULE) == case.finds


def test_a_leg_that_sleds_only_go_up_needs_no_holding() -> None:
    """Where no sled comes down, none runs away: it is told of the way down alone."""
    back = sled_world(25.0, "strip-c1 c1-strip")
    up_only = replace(back, calendar=Calendar(back.calendar.days[:1]))
    assert told(soft_case(RULE, "", back).problem, RULE)
    assert not told(soft_case(RULE, "", up_only).problem, RULE)
