"""Cargo lengths given: things without a length, where an aircraft's longest thing is told."""

from dataclasses import replace

import pytest

from solver.checker import check_request
from tests.rules.flying import WORN, flight_in, flying_world, thing
from tests.rules.worlds import RequestCase, request_found

RULE = "cargo_lengths_given"
LIMITED = (flight_in(longest_mm=2_000),)
LONG = replace(thing("poles"), length_mm=1_500)


def _case(name, gear, *over, flights=LIMITED) -> RequestCase:
    problem = flying_world(flights, gear=gear)
    return RequestCase(name, problem, tuple((RULE, n) for n in over))


CASES = (
    _case("all told", (LONG,)),
    _case("two not told", (LONG, thing("pad"), thing("tent")), 2),
    _case("what is worn is not asked", (LONG, replace(thing("boots"), need=WORN))),
    _case("no longest thing told", (thing("pad"),), flights=(flight_in(),)),
    _case("no flights", (thing("pad"),), flights=()),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_unknown_lengths_are_told(case):
    """Where some aircraft has a longest thing, things of unknown length are counted."""
    assert request_found(case.problem, RULE) == case.finds


def test_the_first_five_are_named():
    """Of seven things without a length five are named and two counted."""
    gear = tuple(thing(f"box-{number}") for number in range(1, 8))
    (remark,) = check_request(_case("many", gear, 7).problem).remarks
    assert remark.finding.message.endswith("box-1, box-2, box-3, box-4, box-5 and 2 more")
