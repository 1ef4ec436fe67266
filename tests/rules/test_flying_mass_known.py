"""Flying mass known: weighed, reckoned from body mass, and not known at all."""

from dataclasses import replace

import pytest

from solver.checker import check_request
from tests.rules.flying import flight_in, flyer, flying_world
from tests.rules.worlds import RequestCase, request_found

RULE = "flying_mass_known"
FLIGHT = (flight_in(),)
UNKNOWN = flyer(mass_g=None)
BY_BODY = replace(UNKNOWN, body_mass_g=80_000)


def _case(name, people, *over, flights=FLIGHT, **numbers) -> RequestCase:
    problem = flying_world(flights, RULE, "payload_for_people", people=people, numbers=numbers)
    return RequestCase(name, problem, tuple((RULE, n) for n in over), not over)


CASES = (
    _case("weighed", (flyer(),)),
    _case("body mass", (BY_BODY,)),
    _case("neither", (UNKNOWN,), 1),
    _case(
        "two of three",
        (flyer(), replace(UNKNOWN, person_id="m2"), replace(UNKNOWN, person_id="m3")),
        1,
        1,
    ),
    _case("no flights", (UNKNOWN,), flights=()),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_whose_mass_nobody_knows_cannot_fly(case):
    """With flights everybody has a flying mass or a body mass; without, nobody needs one."""
    assert request_found(case.problem, RULE) == case.finds


def test_who_is_not_known_is_named():
    """The person without a mass is named, with what would be allowed."""
    (finding,) = check_request(CASES[2].problem).findings
    assert finding.message == "m1 flies, and neither flying mass nor body mass is known"
    assert finding.instead == ("the flying mass of m1, as weighed for the aircraft",)
