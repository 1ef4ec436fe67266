"""Nights that a party can wait, counted by hand on a small world."""

from dataclasses import replace

from solver.outlook.waiting import Nights, waits
from solver.problem import Container, CookGroup
from tests.checker.replaying import replay_of
from tests.rules.worlds import MEAL, person, world

# Nights: c1, c2, c2, c1, c1, c1.
DAYS = "strip-c1-strip-c1 c1-c2 c2 c2-c1 c1 c1 c1-strip"
LOADS = (
    {"m1": "g1/meal*3"},
    {},
    {"m1": "g1/meal*3"},
    {"m1": "g1/meal*4"},
    {"m1": "g1/meal*2"},
    {},
)


def _alone(**changes):
    return world(DAYS, people=(person(pack_g=40),), **changes)


def test_food_for_one_is_counted_set_by_set():
    """Of six sets five are left at c1 after night 1; four go to c2, two of them come back."""
    found = {wait.day: wait for wait in waits(replay_of(_alone(), *LOADS))}
    assert [found[day].sets for day in range(1, 7)] == [5, 3, 2, 2, 1, 0]
    assert [found[day].until_bare.nights for day in range(1, 7)] == [5, 3, 2, 2, 1, 0]
    # Two nights and one set more are to be left, or what is still planned where that is less.
    assert [found[day].until_turn_round.nights for day in range(1, 7)] == [2, 0, 0, 0, 0, 0]
    # At c1 the last planned night takes the last set; at c2 two come back and could be eaten.
    assert [found[day].within_plan.nights for day in range(1, 7)] == [0, 2, 2, 0, 0, 0]
    assert {wait.until_bare.limit for wait in found.values()} == {"food"}


def test_fuel_limits_where_it_is_scarcer():
    """Six cans of 100 mL beside six sets, 150 mL a night: the fuel is bare first."""
    can = Container("can", "g1", 100, tare_g=100, volume_ml=200, count=9)
    set_at = tuple((place, "meal") for place in ("strip", "c1", "c2"))
    problem = _alone(
        groups=(CookGroup("g1", set_at, (can,)),), night_sets=(replace(MEAL, fuel_ml=150),)
    )
    others = LOADS[1:]
    wait = next(waits(replay_of(problem, {"m1": "g1/meal*3 g1/can*6"}, *others)))
    assert (wait.fuel_ml, wait.fuel_a_night_ml) == (450, 150)
    assert wait.until_bare == Nights(3, "fuel")


def test_each_cook_group_waits_by_itself():
    """Two groups of one and two people: each with its own sets."""
    people = (person("m1"), person("m2", cook_group_id="g2"), person("m3", cook_group_id="g2"))
    set_at = (("strip", "meal"), ("c1", "meal"))
    problem = world(
        "strip-c1 c1-strip",
        people=people,
        groups=(CookGroup("g1", set_at), CookGroup("g2", set_at)),
        night_sets=(MEAL, replace(MEAL, cook_group_id="g2")),
    )
    first, second = waits(replay_of(problem, {"m1": "g1/meal*4", "m2": "g2/meal*7"}, {}))
    assert (first.cook_group_id, first.people, first.until_bare.nights) == ("g1", 1, 3)
    assert (second.cook_group_id, second.people, second.until_bare.nights) == ("g2", 2, 2)
