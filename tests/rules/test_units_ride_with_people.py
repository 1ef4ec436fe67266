"""Units ride with people: loads of members, of strangers, of trips that nobody makes, and none."""

from dataclasses import replace

import pytest

from solver.plan import Load, Plan, TripLoads
from tests.rules.worlds import EVERY_NIGHT, Case, found, item, person, plan_of, world

RULE = "units_ride_with_people"

WORLD = world(
    "strip-c1 c1-strip",
    people=(person("m1"), person("m2")),
    gear=(item("tent", EVERY_NIGHT, count=2),),
)
RIGHT = plan_of(WORLD, {"m1": "tent g1/meal*2", "m2": "tent"}, {"m1": "tent", "m2": "tent"})


def _with_loads(trip: int, loads: tuple[Load, ...]) -> Plan:
    trips = list(RIGHT.trips)
    trips[trip] = replace(trips[trip], loads=loads)
    return replace(RIGHT, trips=tuple(trips))


UP, DOWN = RIGHT.trips
STRANGER = replace(UP.loads[0], person_id="m9")

CASES = (
    Case("right", WORLD, RIGHT),
    Case("trips in another order", WORLD, replace(RIGHT, trips=(DOWN, UP))),
    Case(
        "a stranger for a member",
        WORLD,
        _with_loads(0, (STRANGER, UP.loads[1])),
        ((RULE, 1), (RULE, 3)),
    ),
    Case(
        "a load left out that has nothing in it",
        WORLD,
        replace(
            plan_of(WORLD, {"m1": "tent*2 g1/meal*2"}, {"m1": "tent*2"}),
            trips=(
                replace(
                    UP, loads=plan_of(WORLD, {"m1": "tent*2 g1/meal*2"}, {}).trips[0].loads[:1]
                ),
                DOWN,
            ),
        ),
        ((RULE, 1),),
    ),
    Case(
        "an empty second load",
        WORLD,
        _with_loads(0, (*UP.loads, Load("m1", 0, 0, ()))),
        ((RULE, 1),),
    ),
    Case(
        "a trip that nobody makes",
        WORLD,
        replace(RIGHT, trips=(*RIGHT.trips, TripLoads(2, 2, "strip", "c1", UP.loads))),
        ((RULE, 4),),
    ),
    Case(
        "a trip told twice",
        WORLD,
        replace(RIGHT, trips=(UP, *RIGHT.trips)),
        ((RULE, 4),),
    ),
    Case(
        "a trip left out",
        WORLD,
        replace(RIGHT, trips=(UP,)),
        ((RULE, 2), ("everything_returns", 2)),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_each_member_of_a_party_has_one_load_on_each_trip(case):
    """Loads of strangers and of no trip, second loads and loads left out are told."""
    assert found(case.problem, case.plan) == case.finds


def test_two_parties_on_one_leg_at_once_are_told_apart_by_their_people():
    """The loads of two rope teams that make the same step find their trips in any order."""
    people = (person("m1"), person("m2", rope_team_id="r2"))
    gear = (item("rope-1", rope_team_id="r1"), item("rope-2", rope_team_id="r2"))
    problem = world("strip-c1-strip|strip-c1-strip", people=people, gear=gear)
    plan = plan_of(problem, {"m1": "rope-1"}, {"m2": "rope-2"}, {"m1": "rope-1"}, {"m2": "rope-2"})
    assert found(problem, replace(plan, trips=plan.trips[::-1])) == ()
