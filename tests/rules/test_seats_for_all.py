"""Seats for all: as many seats as people, and one seat too few, in and out."""

import pytest

from solver.checker import check_request
from tests.rules.flying import flight_in, flyer, flying_world, out
from tests.rules.worlds import RequestCase, request_found

RULE = "seats_for_all"
FOUR = tuple(flyer(f"m{number}") for number in range(1, 5))


def _case(name, flights, *over) -> RequestCase:
    problem = flying_world(flights, RULE, "flight_seats_held", people=FOUR)
    return RequestCase(name, problem, tuple((RULE, n) for n in over), not over)


CASES = (
    _case("four seats", (flight_in(seats=4),)),
    _case("three seats", (flight_in(seats=3),), 1),
    _case("three and one", (flight_in(seats=3), flight_in("in-2", seats=1))),
    _case("one and one", (flight_in(seats=1), flight_in("in-2", seats=1)), 2),
    _case("three out", (out(flight_in(seats=3)),), 1),
    _case("three in, three out", (flight_in(seats=3), out(flight_in(seats=3))), 1, 1),
    _case("no flights", ()),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_there_is_a_seat_for_everybody(case):
    """All flights of a direction together have at least as many seats as there are people."""
    assert request_found(case.problem, RULE) == case.finds


def test_one_person_too_many_is_refused_in_words():
    """The fourth person on three seats is told as one too many, with what would be allowed."""
    (finding,) = check_request(CASES[1].problem).findings
    assert finding.message == "4 people, 3 seats on all flights in: 1 person too many"
    assert finding.instead == ("1 more seat on the flights in", "one more flight in")
