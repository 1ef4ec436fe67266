"""Passengers as settled: flights whose passengers the request names."""

import pytest

from tests.rules.flying import day_plan, flight_in, flyer, flying_world, out, told
from tests.rules.worlds import Case

RULE = "passengers_as_settled"
PAIR = (flyer(), flyer("m2"))


def _case(name, flights, loads, *over, solvable=True) -> Case:
    problem = flying_world(flights, RULE, people=PAIR)
    return Case(name, problem, day_plan(problem, loads), tuple((RULE, n) for n in over), solvable)


SECOND = (flight_in(), flight_in("in-2", person_ids=("m2",)))
NOBODY = (out(flight_in(person_ids=())), out(flight_in("in-2")))

CASES = (
    _case("as named", SECOND, {"in-1": "m1", "in-2": "m2"}),
    _case("one missing", SECOND, {"in-1": "m1 m2", "in-2": ""}, 1),
    _case("one too many", SECOND, {"in-1": "", "in-2": "m1 m2"}, 1),
    _case("the other one", SECOND, {"in-1": "m2", "in-2": "m1"}, 2),
    _case("nobody, as named", NOBODY, {"out-1": "", "out-2": "m1 m2"}),
    _case("somebody on a cargo flight", NOBODY, {"out-1": "m1", "out-2": "m2"}, 1),
    _case(
        "one not named on the only flight",
        (flight_in(person_ids=("m1",)),),
        {"in-1": "m1 m2"},
        1,
        solvable=False,
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_named_passengers_are_aboard_and_nobody_else(case):
    """Where the request names a flight's passengers, these are on it and no others."""
    assert told(case, RULE) == case.finds
