"""Flight payload held: people, first lunch, sleds and cargo at the limit and a gram beyond."""

from dataclasses import replace

import pytest

from solver.checker import check
from solver.problem import Flight, Sled
from tests.rules.flying import day_plan, flight_in, flyer, flying_world, out, thing, told
from tests.rules.worlds import Case

RULE = "flight_payload_held"
CRATE = replace(thing("crate"), mass_g=20_000)


def _case(name: str, flight: Flight, over: int, person=None, load="m1 | crate", **more) -> Case:
    problem = flying_world((flight,), RULE, people=(person or flyer(),), gear=(CRATE,), **more)
    finds = ((RULE, over),) if over else ()
    return Case(name, problem, day_plan(problem, {flight.flight_id: load}), finds, not over)


BY_BODY = replace(flyer(mass_g=None), body_mass_g=91_000)
WITH_LUNCH = replace(flyer(), first_lunch_g=500)
ON_SLED = flyer(sled_g=30_000)
SLED = {"sleds": (Sled("s1", "m1", 5_000, 50_000, 90_000),), "sled_leg_factors": (100, 100)}
SLEDDED = "m1 | crate sled/s1"

CASES = (
    _case("at the payload", flight_in(payload_g=120_000), 0),
    _case("a gram beyond", flight_in(payload_g=119_999), 1),
    _case("out, at the payload", out(flight_in(payload_g=120_000)), 0),
    _case("out, a gram beyond", out(flight_in(payload_g=119_999)), 1),
    _case("the first lunch fits", flight_in(payload_g=120_500), 0, WITH_LUNCH),
    _case("the first lunch is too much", flight_in(payload_g=120_499), 1, WITH_LUNCH),
    _case("it is eaten before the way out", out(flight_in(payload_g=120_000)), 0, WITH_LUNCH),
    _case("body mass and what is worn", flight_in(payload_g=120_000), 0, BY_BODY),
    _case("what is worn is too much", flight_in(payload_g=119_999), 1, BY_BODY),
    _case("the sled fits", flight_in(payload_g=125_000), 0, ON_SLED, SLEDDED, **SLED),
    _case("the sled is too much", flight_in(payload_g=124_999), 1, ON_SLED, SLEDDED, **SLED),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_flight_lifts_at_most_its_payload(case):
    """People as weighed, the first lunch in, sleds and cargo are at most the payload."""
    assert told(case, RULE) == case.finds


def test_the_words_name_flight_and_kilograms():
    """A flight too heavy is named with what is aboard, what it takes and what is too much."""
    problem = flying_world((flight_in(payload_g=119_500),), RULE, gear=(CRATE,))
    report = check(problem, day_plan(problem, {"in-1": "m1 | crate"}))
    assert [finding.message for finding in report.findings] == [
        "flight in-1: 120.000 kg aboard, payload 119.500 kg, 0.500 kg too much"
    ]
