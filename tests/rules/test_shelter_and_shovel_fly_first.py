"""Shelter and shovel fly first: aboard, before and after, each kind, places at the limit."""

from dataclasses import replace

import pytest

from solver.checker import check
from solver.problem import Need, NeedKind, Purpose
from tests.rules.flying import (
    WORN,
    day_plan,
    flight_in,
    flyer,
    flying_world,
    out,
    thing,
    told,
)
from tests.rules.worlds import Case

RULE = "shelter_and_shovel_fly_first"
TENT = thing("tent", Purpose.SHELTER, places=2)
BIVY = replace(
    thing("bivy", Purpose.SHELTER, places=2),
    need=Need(NeedKind.EVERY_TRIP),
)
SHOVEL = thing("shovel", Purpose.SHOVEL)
PAIR = (flyer(), flyer("m2"))


def _case(name, loads, *over, gear=(TENT, SHOVEL), solvable=True, people=PAIR) -> Case:
    """Two people and their kit, on an operator's cargo flight, a flight with seats, and one."""
    flights = (
        flight_in("in-1", seats=0, loaded_by_operator=True),
        flight_in("in-2", payload_g=100_000 * len(people) + 10_000),
        flight_in("in-3"),
    )
    if "out-1" in loads:
        flights = (out(flight_in()),)
    problem = flying_world(
        flights, RULE, "flight_seats_held", "flight_length_held", people=people, gear=gear
    )
    return Case(name, problem, day_plan(problem, loads), tuple((RULE, n) for n in over), solvable)


THREE = (*PAIR, flyer("m3"))
LATER = {"in-1": "", "in-2": "m1 m2 | shovel", "in-3": "| tent"}
BOTH = (TENT, BIVY, SHOVEL)
BOTH_TENTS = (replace(TENT, shelter_places=1), BIVY, SHOVEL)
NO_SHOVEL = (TENT,)
SHOVEL_WORN = (TENT, replace(SHOVEL, need=WORN))

CASES = (
    _case("aboard", {"in-1": "", "in-2": "m1 m2 | tent shovel", "in-3": ""}),
    _case("the tent before", {"in-1": "| tent", "in-2": "m1 m2 | shovel", "in-3": ""}, 2),
    _case("the tent after", LATER, 2),
    _case("the shovel before", {"in-1": "| shovel", "in-2": "m1 m2 | tent", "in-3": ""}, 1),
    _case("one comes first", {"in-1": "", "in-2": "m1 | tent shovel", "in-3": "m2"}),
    _case(
        "two places for three",
        {"in-1": "", "in-2": "m1 m2 m3 | tent shovel", "in-3": ""},
        1,
        people=THREE,
    ),
    _case(
        "no shovel at all",
        {"in-1": "", "in-2": "m1 m2 | tent", "in-3": ""},
        1,
        gear=NO_SHOVEL,
        solvable=False,
    ),
    _case(
        "no shelter at all",
        {"in-1": "", "in-2": "m1 | shovel", "in-3": "m2"},
        1,
        gear=(SHOVEL,),
        solvable=False,
    ),
    _case("a shovel worn", {"in-1": "", "in-2": "m1 m2 | tent", "in-3": ""}, gear=SHOVEL_WORN),
    _case("both kinds", {"in-1": "", "in-2": "m1 m2 | tent bivy shovel", "in-3": ""}, gear=BOTH),
    _case(
        "only the one for trips",
        {"in-1": "| tent", "in-2": "m1 m2 | bivy shovel", "in-3": ""},
        1,
        gear=BOTH,
    ),
    _case(
        "only the one for nights",
        {"in-1": "| bivy", "in-2": "m1 m2 | tent shovel", "in-3": ""},
        1,
        gear=BOTH,
    ),
    _case(
        "places of both together",
        {"in-1": "", "in-2": "m1 m2 m3 | tent bivy shovel", "in-3": ""},
        gear=BOTH_TENTS,
        people=THREE,
    ),
    _case("out there is no such rule", {"out-1": "m1 m2 | tent shovel"}),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_the_first_people_have_shelter_and_shovel_with_them(case):
    """Aboard the first flight with people are places for all, each kind, and a shovel."""
    assert told(case, RULE) == case.finds


def test_the_words_name_the_flight_and_what_lacks():
    """A tent that comes a flight later is told as places that lack on the first."""
    case = next(case for case in CASES if case.name == "the tent after")
    words = [f.message for f in check(case.problem, case.plan).findings]
    assert words == ["flight in-2, the first with people: shelter for 0 of 2 people aboard"]
