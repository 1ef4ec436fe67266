"""Fuel flies apart: full, open and empty containers with passengers and without."""

from dataclasses import replace

import pytest

from solver.problem import Container, CookGroup, Purpose
from tests.rules.flying import (
    FOOD,
    day_plan,
    flight_in,
    flying_world,
    out,
    stores,
    thing,
    told,
    with_flights,
)
from tests.rules.worlds import Case, plan_of

RULE = "fuel_flies_apart"


def _case(name, flights, loads, over=0, *, solvable=True) -> Case:
    problem = flying_world(flights, RULE, **stores())
    return Case(name, problem, day_plan(problem, loads), ((RULE, over),) if over else (), solvable)


def _night(name: str, burnt_ml: int, flown: str, over: int) -> Case:
    """A night that leaves a can open or empty, which flies out with its people."""
    can = Container("can", "g1", content_ml=burnt_ml, tare_g=100, volume_ml=500, count=1)
    groups = (CookGroup("g1", (("c1", "meal"),), (can,)),)
    flight = out(flight_in())
    food = (FOOD,)
    problem = flying_world(
        (flight,), RULE, days="strip-c1 c1-strip", groups=groups, night_sets=food
    )
    ground = plan_of(problem, {"m1": "g1/meal g1/can"}, {"m1": flown})
    plan = with_flights(problem, ground, {"out-1": f"m1 | {flown} g1/meal*2"})
    return Case(name, problem, plan, ((RULE, over),) if over else (), not over)


def _gear(name: str, purpose: Purpose, over: int, *, agreed: bool = False) -> Case:
    """A canister among the gear, in with the only people."""
    flights = (flight_in(fuel_with_people=agreed),)
    problem = flying_world(flights, RULE, **stores())
    problem = replace(problem, gear=(*problem.gear, thing("gas", purpose)))
    sets = tuple(replace(s, fuel_ml=0) for s in problem.night_sets)
    groups = tuple(replace(group, containers=()) for group in problem.cook_groups)
    problem = replace(problem, night_sets=sets, cook_groups=groups)
    plan = day_plan(problem, {"in-1": f"m1 | {MEALS} gas"})
    return Case(name, problem, plan, ((RULE, over),) if over else (), not over)


MEALS = "g1/meal*3"
TWO = (flight_in(seats=4), flight_in("in-2"))

CASES = (
    _case(
        "the operator takes it",
        (flight_in(fuel_with_people=True),),
        {"in-1": f"m1 | {MEALS} g1/can"},
    ),
    _case("with people", (flight_in(),), {"in-1": f"m1 | {MEALS} g1/can"}, 1, solvable=False),
    _case(
        "out with people", (out(flight_in()),), {"out-1": f"m1 | {MEALS} g1/can"}, 1, solvable=False
    ),
    _case("without people", TWO, {"in-1": "| g1/can", "in-2": f"m1 | {MEALS}"}),
    _case("with people on the first of two", TWO, {"in-1": "m1 | g1/can", "in-2": f"| {MEALS}"}, 1),
    _gear("a canister in the gear with people", Purpose.FUEL, 1),
    _gear("a canister in the gear, the operator agrees", Purpose.FUEL, 0, agreed=True),
    _gear("a pump with people", Purpose.PUMP, 0),
    _night("an empty can with people", 100, "g1/can/empty-1", 0),
    _night("an open can with people", 101, "g1/can/open-1", 1),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_fuel_flies_with_people_only_where_the_operator_agrees(case):
    """Full and open containers are aboard with passengers only where the request says so."""
    assert told(case, RULE) == case.finds
