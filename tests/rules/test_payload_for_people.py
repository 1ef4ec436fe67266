"""Payload for people: all together and each alone at the limit and a gram beyond."""

from dataclasses import replace

import pytest

from solver.checker import check_request
from tests.rules.flying import flight_in, flyer, flying_world, out
from tests.rules.worlds import RequestCase, request_found

RULE = "payload_for_people"
PAIR = (flyer(), flyer("m2"))
BY_BODY = replace(flyer(mass_g=None), body_mass_g=91_000)


def _case(name, flights, *over, people=PAIR, **numbers) -> RequestCase:
    problem = flying_world(flights, RULE, "flight_payload_held", people=people, numbers=numbers)
    return RequestCase(name, problem, tuple((RULE, n) for n in over), not over)


def _two(first_g: int, second_g: int):
    return flight_in(payload_g=first_g), flight_in("in-2", payload_g=second_g)


LUNCH = (replace(flyer(), first_lunch_g=300),)

CASES = (
    _case("both on one", (flight_in(payload_g=200_000),)),
    _case("a gram too much for one", (flight_in(payload_g=199_999),), 1),
    _case("one each", _two(100_000, 100_000)),
    _case("neither goes alone", _two(99_999, 99_999), 1, 1, 2),
    _case("out, a gram too much", (out(flight_in(payload_g=199_999)),), 1),
    _case("lunch in", (flight_in(payload_g=100_300),), people=LUNCH),
    _case("lunch too much in", (flight_in(payload_g=100_299),), 1, 1, people=LUNCH),
    _case("no lunch out", (out(flight_in(payload_g=100_000)),), people=LUNCH),
    _case("body mass and 9 kg", (flight_in(payload_g=100_000),), people=(BY_BODY,)),
    _case("a gram less", (flight_in(payload_g=99_999),), 1, 1, people=(BY_BODY,)),
    _case(
        "12 kg worn",
        (flight_in(payload_g=100_000),),
        3_000,
        3_000,
        people=(BY_BODY,),
        worn_flying_kg=12,
    ),
    _case("no flights", ()),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_payloads_lift_everybody_before_any_cargo(case):
    """All payloads of a direction lift all its people, and one lifts each of them."""
    assert request_found(case.problem, RULE) == case.finds


def test_the_words_have_kilograms():
    """People too heavy for all flights are told with both sums and the difference."""
    (finding,) = check_request(CASES[1].problem).findings
    assert finding.message == (
        "people are 200.000 kg, all flights in together take 199.999 kg: 0.001 kg too much "
        "before any cargo"
    )
