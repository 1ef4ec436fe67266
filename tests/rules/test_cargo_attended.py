"""Cargo attended: cargo before, with and after people, both ways, and the operator's flights."""

import pytest

from solver.checker import check
from tests.rules.flying import day_plan, flight_in, flyer, flying_world, out, thing, told
from tests.rules.worlds import Case

RULE = "cargo_attended"
CRATES = (thing("crate"), thing("box"))
EMPTY = {"person_ids": ()}


def _case(name, loads, *over, solvable=True, **flights) -> Case:
    """One person and two things, on two flights of one direction."""
    inbound = "in-1" in loads
    kinds = [flights.get("first", {}), flights.get("second", {})]
    both = [flight_in(f"in-{n}", **kind) for n, kind in enumerate(kinds, 1)]
    problem = flying_world(
        tuple(both if inbound else map(out, both)),
        RULE,
        "flight_payload_held",
        "passengers_as_settled",
        people=(flyer(),),
        gear=CRATES,
    )
    return Case(name, problem, day_plan(problem, loads), tuple((RULE, n) for n in over), solvable)


OPERATOR = {**EMPTY, "loaded_by_operator": True}
TOO_SMALL = {"payload_g": 101_000}

CASES = (
    _case("with the people", {"in-1": "m1 | crate box", "in-2": ""}),
    _case("one unit before anybody", {"in-1": "| crate", "in-2": "m1 | box"}, 1),
    _case("two units before anybody", {"in-1": "| crate box", "in-2": "m1"}, 2),
    _case("after the people", {"in-1": "m1", "in-2": "| crate box"}),
    _case("the operator meets it", {"in-1": "| crate box", "in-2": "m1"}, first=OPERATOR),
    _case(
        "no room with the people",
        {"in-1": "| crate", "in-2": "m1 | box"},
        1,
        solvable=False,
        first=EMPTY,
        second=TOO_SMALL,
    ),
    _case(
        "no room with the people, but an operator",
        {"in-1": "| crate", "in-2": "m1 | box"},
        first=OPERATOR,
        second=TOO_SMALL,
    ),
    _case("out before the people", {"out-1": "| crate box", "out-2": "m1"}),
    _case("out with the people", {"out-1": "", "out-2": "m1 | crate box"}),
    _case("out after the last", {"out-1": "m1 | crate", "out-2": "| box"}, 1),
    _case("the operator loads it", {"out-1": "m1", "out-2": "| crate box"}, second=OPERATOR),
    _case(
        "no room with the last",
        {"out-1": "m1 | crate", "out-2": "| box"},
        1,
        solvable=False,
        first=TOO_SMALL,
        second=EMPTY,
    ),
    _case(
        "no room with the last, but an operator",
        {"out-1": "m1 | crate", "out-2": "| box"},
        first=TOO_SMALL,
        second=OPERATOR,
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_somebody_is_there_for_cargo(case):
    """Cargo needs somebody on its flight or on the ground, unless the operator handles it."""
    assert told(case, RULE) == case.finds


def test_the_words_name_the_flight_and_what_is_missing():
    """A crate on a flight after the last people is told as having nobody who loads it."""
    case = next(case for case in CASES if case.name == "out after the last")
    words = [f.message for f in check(case.problem, case.plan).findings]
    assert words == ["flight out-2 has cargo, and nobody of the party at strip loads it"]
