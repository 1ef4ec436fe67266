"""Flying mass weighed: a word about everybody whose mass in the aircraft is reckoned."""

from dataclasses import replace

import pytest

from solver.checker import check_request
from tests.rules.flying import flight_in, flyer, flying_world
from tests.rules.worlds import RequestCase, request_found

RULE = "flying_mass_weighed"
FLIGHT = (flight_in(),)
BY_BODY = replace(flyer(mass_g=None), body_mass_g=80_000)


def _case(name, people, *over, flights=FLIGHT) -> RequestCase:
    problem = flying_world(flights, people=people)
    return RequestCase(name, problem, tuple((RULE, n) for n in over))


CASES = (
    _case("weighed", (flyer(),)),
    _case("reckoned", (BY_BODY,), 1),
    _case("one of two", (flyer("m2"), BY_BODY), 1),
    _case("no flights", (BY_BODY,), flights=()),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_reckoned_mass_is_told(case):
    """Whoever flies without having been weighed is told, one by one."""
    assert request_found(case.problem, RULE) == case.finds


def test_the_reckoned_mass_is_body_and_what_is_worn():
    """80 kg of body and 9 kg worn are 89 kg in the aircraft."""
    (remark,) = check_request(CASES[1].problem).remarks
    assert "m1 is taken to be 89.000 kg in the aircraft" in remark.finding.message
