"""First flight self sufficient: each thing there and missing, stores at the limit and below."""

from dataclasses import replace

import pytest

from solver.checker import check
from solver.problem import Purpose
from tests.rules.flying import (
    KIT,
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

RULE = "first_flight_self_sufficient"
ALONE = (flyer(),)
GUIDE = replace(flyer(), is_guide=True)
FLIGHT = (flight_in(fuel_with_people=True),)
STORES = "g1/meal*3 g1/can"
ALL = "tent stove pot phone medical"


def _case(name, *over, load=None, gear=KIT, people=ALONE, flights=FLIGHT, **more) -> Case:
    """All on one flight that has everything unless told otherwise."""
    numbers = more.pop("numbers", None)
    kept = stores(**more)
    problem = flying_world(flights, RULE, people=people, gear=gear, numbers=numbers, **kept)
    there = " ".join(i.unit_id for i in gear if i.need is not WORN)
    sets = kept["night_sets"][0].bag_count
    who = " ".join(p.person_id for p in people)
    loads = load or {"in-1": f"{who} | {there} g1/meal*{sets} g1/can"}
    finds = tuple((RULE, n) for n in over)
    return Case(name, problem, day_plan(problem, loads), finds, not finds)


def _without(purpose: Purpose) -> Case:
    gear = tuple(item for item in KIT if item.purpose is not purpose)
    return _case(f"no {purpose.value}", 1, gear=gear)


def _two(name: str, loads: dict[str, str], *over: int, people=None, **flight) -> Case:
    """Two flights, of which some other load than the one told would do."""
    flights = (flight_in(**flight), flight_in("in-2", fuel_with_people=True))
    case = _case(name, *over, load=loads, flights=flights, people=people or ALONE)
    return replace(case, solvable=True)


BESIDES = (GUIDE, flyer("m2"))
TENT_FOR_TWO = (thing("tent", Purpose.SHELTER, places=2), *KIT[1:])

CASES = (
    _case("all there"),
    *map(_without, (p.purpose for p in KIT)),
    _case("three nights of two", people=BESIDES, gear=TENT_FOR_TWO, nights=6, fuel_ml=600),
    _case("a place too few", 1, people=BESIDES, nights=6, fuel_ml=600),
    _case("a night set too few", 1, nights=2),
    _case("a millilitre too little", 1, fuel_ml=299),
    _case("two nights asked, two there", nights=2, fuel_ml=200, numbers={"first_flight_nights": 2}),
    _case("four nights asked", 1, fuel_ml=400, numbers={"first_flight_nights": 4}),
    _case("a communicator worn", gear=(*KIT[:3], replace(KIT[3], need=WORN), KIT[4])),
    _two("the rest comes later", {"in-1": f"m1 | {ALL} {STORES}", "in-2": ""}),
    _two("cargo first", {"in-1": f"| {ALL} {STORES}", "in-2": "m1"}),
    _two(
        "the stove too late",
        {"in-1": f"m1 | tent pot phone medical {STORES}", "in-2": "| stove"},
        1,
    ),
    _two("the fuel too late", {"in-1": f"m1 | {ALL} g1/meal*3", "in-2": "| g1/can"}, 300),
    _two(
        "the guide first",
        {"in-1": f"m1 | {ALL} {STORES}", "in-2": "m2"},
        people=BESIDES,
    ),
    _two(
        "the guide later",
        {"in-1": f"m2 | {ALL} {STORES}", "in-2": "m1"},
        1,
        people=BESIDES,
    ),
    replace(
        _case(
            "nobody comes, all leave",
            load={"out-1": f"m1 | {STORES}"},
            gear=(),
            flights=(out(FLIGHT[0]),),
        )
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_who_comes_first_can_stay(case):
    """The first flight with people, or one before it, brings all that they need to stay."""
    assert told(case, RULE) == case.finds


def test_fuel_is_needed_with_its_margin():
    """Three nights of 100 mL with a tenth on them take 330 mL, so 329 mL lack one."""
    for fuel_ml, over in ((330, ()), (329, (1,))):
        problem = flying_world(
            FLIGHT, RULE, gear=KIT, fuel_margin_percent=10, **stores(fuel_ml=fuel_ml)
        )
        case = Case("margin", problem, day_plan(problem, {"in-1": f"m1 | {ALL} {STORES}"}))
        assert told(case, RULE) == tuple((RULE, n) for n in over)


def test_the_words_name_the_flight_and_what_lacks():
    """A stove that comes with the second flight is told as lacking on the first."""
    case = next(case for case in CASES if case.name == "the stove too late")
    told_words = [f.message for f in check(case.problem, case.plan).findings]
    assert told_words == ["flight in-1, the first with people: no stove with it or before"]
