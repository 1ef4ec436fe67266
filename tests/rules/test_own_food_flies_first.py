"""Own food flies first: food of allergic people, and personal medication, before and after."""

from dataclasses import replace

import pytest

from solver.checker import check
from solver.problem import Flight, Purpose
from tests.rules.flying import (
    WORN,
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

RULE = "own_food_flies_first"
ALLERGIC = replace(flyer(), avoids=("nuts",))
REACTS = replace(flyer(), reacts_to=("nuts",))
INJECTOR = replace(thing("pen", Purpose.INJECTOR), owner_id="m1")
TABLETS = replace(thing("tablets", Purpose.MEDICATION), owner_id="m1")
TWO = (flight_in(fuel_with_people=True), flight_in("in-2", fuel_with_people=True))


def _food(
    name: str,
    loads: dict[str, str],
    *over: int,
    people=(ALLERGIC,),
    flights: tuple[Flight, ...] = TWO,
    nights: int = 3,
    solvable: bool = True,
    numbers: dict[str, int] | None = None,
) -> Case:
    problem = flying_world(flights, RULE, people=people, numbers=numbers, **stores(nights=nights))
    finds = tuple((RULE, n) for n in over)
    return Case(name, problem, day_plan(problem, loads), finds, solvable)


def _medication(
    name: str, loads: dict[str, str], *over: int, item=INJECTOR, leaving=False, seated: bool = False
) -> Case:
    """Two flights in or out; `seated` says that the owner must be on the first, alone."""
    flights = (flight_in(person_ids=("m1",) if seated else None), flight_in("in-2"))
    problem = flying_world(
        tuple(out(f) for f in flights) if leaving else flights,
        RULE,
        "passengers_as_settled",
        people=(flyer(), flyer("m2")),
        gear=(item,),
    )
    return Case(name, problem, day_plan(problem, loads), tuple((RULE, n) for n in over))


ONE = (flight_in(fuel_with_people=True),)
ALL = "g1/meal*3 g1/can"

CASES = (
    _food("with them", {"in-1": f"m1 | {ALL}", "in-2": ""}),
    _food("before them", {"in-1": f"| {ALL}", "in-2": "m1"}),
    _food("one bag later", {"in-1": "m1 | g1/meal*2 g1/can", "in-2": "| g1/meal"}, 1),
    _food("traces count too", {"in-1": "m1 | g1/can", "in-2": "| g1/meal*3"}, 3, people=(REACTS,)),
    _food("others may wait", {"in-1": "m1 | g1/can", "in-2": "| g1/meal*3"}, people=(flyer(),)),
    _food(
        "a set too few in all",
        {"in-1": "m1 | g1/meal*2 g1/can"},
        1,
        flights=ONE,
        nights=2,
        solvable=False,
    ),
    _food(
        "two nights asked",
        {"in-1": "m1 | g1/meal*2 g1/can"},
        flights=ONE,
        nights=2,
        numbers={"own_food_nights": 2},
    ),
    _food(
        "four nights asked",
        {"in-1": f"m1 | {ALL}"},
        1,
        flights=ONE,
        solvable=False,
        numbers={"own_food_nights": 4},
    ),
    _food(
        "two of the group eat it",
        {"in-1": f"m1 m2 | {ALL}"},
        3,
        people=(ALLERGIC, flyer("m2")),
        flights=ONE,
        solvable=False,
    ),
    _food(
        "the other one comes later",
        {"in-1": f"m1 | {ALL}", "in-2": "m2"},
        people=(ALLERGIC, flyer("m2")),
    ),
    _medication("an injector with its owner", {"in-1": "m1 | m1/pen", "in-2": "m2"}),
    _medication("before its owner", {"in-1": "m2 | m1/pen", "in-2": "m1"}),
    _medication("after its owner", {"in-1": "m1", "in-2": "m2 | m1/pen"}, 1),
    _medication(
        "tablets after their owner", {"in-1": "m1", "in-2": "m2 | m1/tablets"}, 1, item=TABLETS
    ),
    _medication(
        "the owner first by request", {"in-1": "m1", "in-2": "m2 | m1/pen"}, 1, seated=True
    ),
    _medication("worn", {"in-1": "m1", "in-2": "m2"}, item=replace(INJECTOR, need=WORN)),
    _medication(
        "anything else", {"in-1": "m1", "in-2": "m2 | m1/pen"}, item=replace(INJECTOR, purpose=None)
    ),
    _medication("out after its owner", {"out-1": "m1", "out-2": "m2 | m1/pen"}, leaving=True),
    _medication("out with its owner", {"out-1": "m2", "out-2": "m1 | m1/pen"}, leaving=True),
    _medication("out before its owner", {"out-1": "m2 | m1/pen", "out-2": "m1"}, 1, leaving=True),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_own_food_and_medication_are_there_when_their_people_are(case):
    """Allergic people's food comes with them or before; medication is never away from them."""
    assert told(case, RULE) == case.finds


def test_the_words_name_person_and_flight():
    """What lacks is told with the allergic person, the flight and the nights asked."""
    case = next(case for case in CASES if case.name == "one bag later")
    (finding,) = check(case.problem, case.plan).findings
    assert finding.message == (
        "m1 comes with flight in-1: with it or before come 2 night sets of cook group g1, "
        "1 too few for 3 nights"
    )
