"""Fuel in two containers: the checker with two at a new camp, with one, and with none."""

from dataclasses import replace

import pytest

from solver.problem import Container, CookGroup
from tests.rules.guest_worlds import with_guest
from tests.rules.worlds import MEAL, Case, found, glacier, person, plan_of, world

RULE = "fuel_in_two_containers"
HOT = replace(MEAL, fuel_ml=200)


def _world(days, *containers):
    """One person who burns 200 mL a night from containers of some size and number."""
    kinds = tuple(
        Container(name, "g1", content_ml, tare_g=100, volume_ml=500, count=count)
        for name, content_ml, count in containers
    )
    groups = (CookGroup("g1", (("strip", "meal"), ("c1", "meal")), kinds),)
    people = (person("m1"), person("m2", cook_group_id="g2"))
    groups = (*groups, CookGroup("g2", (("strip", "meal"), ("c1", "meal"))))
    sets = (HOT, replace(MEAL, cook_group_id="g2"))
    return glacier(world(days, people=people, groups=groups, night_sets=sets), RULE)


FOOD = "g1/meal g2/meal"
NIGHT = "strip-c1 c1-strip"
# What a container of 400 mL weighs with 200 mL left in it.
OPEN = {("g1/can/open-1", 2): (240, 500)}
BIG = {("g1/big/open-1", 2): (240, 500)}


def _case(name, problem, up, down, weights, *over, solvable=True):
    up = {"m1": f"{up[0]} {FOOD}", "m2": up[1]}
    plan = plan_of(problem, up, {"m1": down[0], "m2": down[1]}, weights=weights)
    return Case(name, problem, plan, tuple((RULE, n) for n in over), solvable)


TWO = _world(NIGHT, ("can", 400, 2))
ONE = _world(NIGHT, ("can", 400, 1))
UNLIKE = _world(NIGHT, ("big", 400, 1), ("small", 1, 1))

CASES = (
    _case("two", TWO, ("g1/can", "g1/can"), ("g1/can/open-1", "g1/can"), OPEN),
    _case("one of two", TWO, ("g1/can", ""), ("g1/can/open-1", ""), OPEN, 1),
    _case("one", ONE, ("g1/can", ""), ("g1/can/open-1", ""), OPEN, 1, solvable=False),
    _case(
        "a big and a small one", UNLIKE, ("g1/big", "g1/small"), ("g1/big/open-1", "g1/small"), BIG
    ),
)
CASES = (*CASES, *map(with_guest, CASES))


@pytest.mark.parametrize("case", CASES, ids=str)
def test_fuel_comes_to_a_camp_in_two_containers(case):
    """On the first night at a camp a cook group has two containers with fuel there."""
    assert found(case.problem, case.plan) == case.finds


def test_only_the_first_night_of_a_stay_is_asked():
    """Of two cans one is empty after the second night, and the third is not asked."""
    problem = _world("strip-c1 c1 c1 c1-strip", ("can", 400, 2))
    plan = plan_of(
        problem,
        {"m1": "g1/can g1/meal*3 g2/meal*3", "m2": "g1/can"},
        {"m1": "g1/can/empty-1", "m2": "g1/can/open-2"},
        weights={("g1/can/empty-1", 4): (100, 500), ("g1/can/open-2", 4): (240, 500)},
    )
    assert found(problem, plan) == ()
