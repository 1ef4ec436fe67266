"""Nobody stranded: what is there for those who wait between flights, at the limit and below."""

from dataclasses import replace

import pytest

from solver.checker import check
from solver.problem import Flight, Purpose
from tests.rules.flying import (
    KIT,
    day_plan,
    flight_in,
    flyer,
    flying_world,
    out,
    stores,
    thing,
    told,
)
from tests.rules.worlds import Case

RULE = "nobody_stranded"
TWO_PLACES = (thing("tent", Purpose.SHELTER, places=2), *KIT[1:])
ALL = "tent stove pot phone medical"
ONE_EACH = (flight_in(seats=1, fuel_with_people=True), flight_in("in-2", seats=1))
LEAVING = tuple(replace(out(flight), fuel_with_people=True) for flight in ONE_EACH)


def _case(
    name: str,
    loads: dict[str, str],
    *over: int,
    solvable: bool,
    gear=TWO_PLACES,
    flights: tuple[Flight, ...] = ONE_EACH,
    nights: int = 2,
    fuel_ml: int = 200,
) -> Case:
    problem = flying_world(
        flights,
        RULE,
        "flight_seats_held",
        people=(flyer(), flyer("m2")),
        gear=gear,
        **stores(nights=nights, fuel_ml=fuel_ml),
    )
    finds = tuple((RULE, n) for n in over)
    return Case(name, problem, day_plan(problem, loads), finds, solvable)


BOTH_IN = {"in-1": f"m1 | {ALL} g1/can", "in-2": "m2 | g1/meal*2"}
FIRST_OUT = {"out-1": "m1", "out-2": f"m2 | {ALL} g1/meal*2 g1/can"}
NO_PHONE = tuple(i for i in TWO_PLACES if i.item_id != "phone")
NO_STOVE = tuple(i for i in TWO_PLACES if i.item_id != "stove")
WITHOUT_PHONE = {"in-1": "m1 | tent stove pot medical g1/can", "in-2": "m2 | g1/meal*2"}
WITHOUT_STOVE = {"in-1": "m1 | tent pot phone medical g1/can", "in-2": "m2 | g1/meal*2"}
ONE_SET = {"in-1": f"m1 | {ALL} g1/can", "in-2": "m2 | g1/meal"}
NOTHING_LEFT = {"out-1": f"m1 | {ALL} g1/meal*2 g1/can", "out-2": "m2"}
TOGETHER = {"in-1": f"m1 m2 | {ALL} g1/meal*2 g1/can"}
BARE = (flight_in(fuel_with_people=True),)
THREE = (flight_in(seats=1), flight_in("in-2", seats=1), flight_in("in-3", fuel_with_people=True))

CASES = (
    _case("enough for two", BOTH_IN, solvable=True),
    _case("one place for two", BOTH_IN, 1, gear=KIT, solvable=False),
    _case("no communicator", WITHOUT_PHONE, 1, gear=NO_PHONE, solvable=False),
    _case("no stove", WITHOUT_STOVE, 1, gear=NO_STOVE, solvable=False),
    _case("one night set for two", ONE_SET, 1, nights=1, solvable=False),
    _case("a millilitre too little for two", BOTH_IN, 1, fuel_ml=199, solvable=False),
    _case(
        "the first flight has a rule of its own", TOGETHER, flights=BARE, gear=KIT, solvable=True
    ),
    _case(
        "the tent on the third",
        {"in-1": "m1 | g1/meal*2", "in-2": "m2 | stove pot phone medical", "in-3": "| tent g1/can"},
        2,
        200,
        flights=THREE,
        solvable=True,
    ),
    _case("the second leaves with all", FIRST_OUT, flights=LEAVING, solvable=True),
    _case(
        "one leaves with all",
        NOTHING_LEFT,
        1,
        1,
        1,
        1,
        100,
        flights=LEAVING,
        solvable=True,
    ),
    _case(
        "nothing to eat for who waits",
        {"out-1": "m1", "out-2": f"m2 | {ALL} g1/can"},
        1,
        flights=LEAVING,
        nights=0,
        solvable=False,
    ),
    _case(
        "enough for the one who waits",
        {"out-1": "m1", "out-2": f"m2 | {ALL} g1/meal g1/can"},
        flights=LEAVING,
        gear=KIT,
        nights=1,
        fuel_ml=100,
        solvable=True,
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_who_waits_for_another_flight_can_stay_a_night(case):
    """Between flights those at the start place have all that a night there takes."""
    assert told(case, RULE) == case.finds


def test_the_words_name_place_and_flight():
    """Somebody left without the stove is told with the place and the flight that took it."""
    case = next(case for case in CASES if case.name == "one leaves with all")
    words = [f.message for f in check(case.problem, case.plan).findings]
    assert "at strip after flight out-1 has left: no stove" in words
    assert "at strip after flight out-1 has left: shelter for 0 of 1 people" in words
