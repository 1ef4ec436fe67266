"""Flight seats held: as many passengers as seats, and one more."""

import pytest

from tests.rules.flying import day_plan, flight_in, flyer, flying_world, out, told
from tests.rules.worlds import Case

RULE = "flight_seats_held"
PAIR = (flyer(), flyer("m2"))


def _case(name, flights, loads, *over, solvable=True) -> Case:
    problem = flying_world(flights, RULE, people=PAIR)
    return Case(name, problem, day_plan(problem, loads), tuple((RULE, n) for n in over), solvable)


ONE_EACH = (flight_in(seats=1), flight_in("in-2", seats=1))

CASES = (
    _case("two on two seats", (flight_in(seats=2),), {"in-1": "m1 m2"}),
    _case("two on one seat", (flight_in(seats=1),), {"in-1": "m1 m2"}, 1, solvable=False),
    _case("two on none", (out(flight_in(seats=0)),), {"out-1": "m1 m2"}, 2, solvable=False),
    _case("one on each flight", ONE_EACH, {"in-1": "m1", "in-2": "m2"}),
    _case("both on one of the two", ONE_EACH, {"in-1": "m1 m2", "in-2": ""}, 1),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_nobody_flies_without_a_seat(case):
    """A flight has at most as many passengers as seats."""
    assert told(case, RULE) == case.finds
