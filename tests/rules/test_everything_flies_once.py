"""Everything flies once: people and units left, doubled, unknown or told wrongly."""

from dataclasses import replace

import pytest

from solver.plan import FlightLoad, Stowed
from solver.problem import Sled
from tests.rules.flying import (
    FOOD,
    day_plan,
    flight_in,
    flyer,
    flying_world,
    out,
    stores,
    thing,
    told,
    with_flights,
)
from tests.rules.worlds import Case, plan_of

RULE = "everything_flies_once"
CRATES = replace(thing("crate"), count=2)
BOTH_WAYS = flying_world(
    (flight_in(), flight_in("in-2"), out(flight_in())),
    people=(flyer(sled_g=30_000), flyer("m2")),
    gear=(CRATES,),
    sleds=(Sled("s1", "m1", 5_000, 50_000, 90_000),),
    sled_leg_factors=(100, 100),
    **stores(),
)
STORES = "g1/meal*3 g1/can sled/s1"
SOUND = {
    "in-1": "m1 | crate g1/meal",
    "in-2": "m2 | crate g1/meal*2 g1/can sled/s1",
    "out-1": f"m1 m2 | crate*2 {STORES}",
}


def _case(name: str, loads: dict[str, str], *over: int) -> Case:
    plan = day_plan(BOTH_WAYS, {**SOUND, **loads})
    return Case(name, BOTH_WAYS, plan, tuple((RULE, n) for n in over))


def _told(name: str, *more: FlightLoad, over: int) -> Case:
    plan = day_plan(BOTH_WAYS, SOUND)
    return Case(name, BOTH_WAYS, replace(plan, flights=(*plan.flights, *more)), ((RULE, over),))


NIGHT = flying_world(
    (flight_in(), out(flight_in())),
    days="strip-c1 c1-strip",
    night_sets=(replace(FOOD, packaging_g=60, fuel_ml=0),),
)
GROUND = plan_of(
    NIGHT, {"m1": "g1/meal"}, {"m1": "trash/c1/1-1"}, weights={("trash/c1/1-1", 2): (60, 300)}
)
TRASH = FlightLoad(
    "out-1", ("m1",), (Stowed("g1/meal", 2, 500, 1_000), Stowed("trash/c1/1-1", 1, 60, 300))
)
WITH_TRASH = with_flights(NIGHT, GROUND, {"in-1": "m1 | g1/meal*3"})

CASES = (
    _case("each once", {}),
    Case("no flights told", BOTH_WAYS, plan_of(BOTH_WAYS, {}, {}), ((RULE, 9), (RULE, 9))),
    Case(
        "none out told",
        BOTH_WAYS,
        replace(day_plan(BOTH_WAYS, SOUND), flights=day_plan(BOTH_WAYS, SOUND).flights[:2]),
        ((RULE, 9),),
    ),
    _case("one left", {"in-1": "| crate g1/meal"}, 1),
    _case("one flown twice", {"in-2": "m1 m2 | crate g1/meal*2 g1/can sled/s1"}, 1),
    _case("somebody unknown", {"in-1": "m1 m9 | crate g1/meal"}, 1),
    _case("two bags left", {"in-2": "m2 | crate g1/can sled/s1"}, 2),
    _case("a crate too many", {"in-1": "m1 | crate*2 g1/meal"}, 1),
    _case("a sled left at the end", {"out-1": "m1 m2 | crate*2 g1/meal*3 g1/can"}, 1),
    _case("something unknown", {"in-1": "m1 | crate g1/meal lute*2"}, 2),
    _told("a flight unknown", FlightLoad("in-9", (), ()), over=1),
    _told("a flight told twice", FlightLoad("in-1", (), ()), over=1),
    Case("trash flies out", NIGHT, replace(WITH_TRASH, flights=(*WITH_TRASH.flights, TRASH))),
    Case(
        "trash stays at the start place",
        NIGHT,
        replace(WITH_TRASH, flights=(*WITH_TRASH.flights, replace(TRASH, units=TRASH.units[:1]))),
        ((RULE, 1),),
    ),
    Case(
        "trash told too light",
        NIGHT,
        replace(
            WITH_TRASH,
            flights=(
                *WITH_TRASH.flights,
                replace(TRASH, units=(TRASH.units[0], Stowed("trash/c1/1-1", 1, 50, 300))),
            ),
        ),
        ((RULE, 10),),
    ),
    Case(
        "nothing aboard told as minus two",
        NIGHT,
        replace(
            WITH_TRASH,
            flights=(
                *WITH_TRASH.flights,
                replace(TRASH, units=(*TRASH.units, Stowed("g1/meal", -2, 500, 1_000))),
            ),
        ),
        ((RULE, 2),),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_everybody_and_everything_flies_exactly_once(case):
    """Each direction with flights has everybody and every unit on exactly one, told truly."""
    assert told(case, RULE) == case.finds
