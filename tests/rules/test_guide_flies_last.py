"""Guide flies last: the guide on the last flight out, on an earlier one, and without guides."""

from dataclasses import replace

import pytest

from solver.checker import check
from tests.rules.flying import day_plan, flight_in, flyer, flying_world, out, told
from tests.rules.worlds import Case

RULE = "guide_flies_last"
GUIDE = replace(flyer(), is_guide=True)
GUIDED = (GUIDE, flyer("m2", mass_g=150_000))
SMALL = {"payload_g": 149_000}


def _case(name, loads, *over, people=GUIDED, solvable=True, first=None, last=None) -> Case:
    """Two people on two flights of a seat each, out unless told otherwise."""
    one = {"seats": 1}
    flights = (flight_in(**one, **(first or {})), flight_in("in-2", **one, **(last or {})))
    problem = flying_world(
        flights if "in-1" in loads else tuple(map(out, flights)),
        RULE,
        "flight_seats_held",
        "flight_payload_held",
        people=people,
    )
    return Case(name, problem, day_plan(problem, loads), tuple((RULE, n) for n in over), solvable)


CASES = (
    _case("the guide last", {"out-1": "m2", "out-2": "m1"}),
    _case("the guide first", {"out-1": "m1", "out-2": "m2"}, 1),
    _case(
        "only the guide is light enough for the first",
        {"out-1": "m1", "out-2": "m2"},
        1,
        first=SMALL,
        solvable=False,
    ),
    _case("all on the first", {"out-1": "m1 m2", "out-2": ""}, first={}, solvable=True),
    _case("nobody is a guide", {"out-1": "m1", "out-2": "m2"}, people=(flyer(), flyer("m2"))),
    _case("in there is no such rule", {"in-1": "m1", "in-2": "m2"}),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_guide_is_among_the_last(case):
    """The last flight out with people has a guide on it, on a guided trip."""
    assert told(case, RULE) == case.finds


def test_the_words_name_the_flight():
    """A client alone on the last flight is told with the flight."""
    case = next(case for case in CASES if case.name == "the guide first")
    words = [f.message for f in check(case.problem, case.plan).findings]
    assert words == ["flight out-2, the last out with people: no guide aboard"]
