"""Fuel shares even: the checker with half of the fuel in one container, and 1 mL more."""

from dataclasses import replace

import pytest

from solver.problem import Container, CookGroup
from tests.rules.worlds import MEAL, Case, glacier, person, plan_of, remarked, world

RULE = "fuel_shares_even"
HOT = replace(MEAL, fuel_ml=200)


def _world(days, *containers, **numbers):
    """One person who burns 200 mL a night from containers of some size and number."""
    kinds = tuple(
        Container(name, "g1", content_ml, tare_g=100, volume_ml=500, count=count)
        for name, content_ml, count in containers
    )
    groups = (CookGroup("g1", (("strip", "meal"), ("c1", "meal")), kinds),)
    people = (person("m1"), person("m2", cook_group_id="g2"))
    groups = (*groups, CookGroup("g2", (("strip", "meal"), ("c1", "meal"))))
    sets = (HOT, replace(MEAL, cook_group_id="g2"))
    return glacier(world(days, people=people, groups=groups, night_sets=sets), RULE, **numbers)


FOOD = "g1/meal g2/meal"
NIGHT = "strip-c1 c1-strip"
# What a container of 400 or 399 mL weighs with 200 or 199 mL left in it.
OPEN = {("g1/can/open-1", 2): (240, 500)}
LITTLE = {("g1/can/open-1", 2): (239, 500)}
BIG = {("g1/big/open-1", 2): (240, 500)}


def _case(name, problem, up, down, weights, *over, solvable=True):
    up = {"m1": f"{up[0]} {FOOD}", "m2": up[1]}
    plan = plan_of(problem, up, {"m1": down[0], "m2": down[1]}, weights=weights)
    return Case(name, problem, plan, tuple((RULE, n) for n in over), solvable)


TWO = _world(NIGHT, ("can", 400, 2))
ONE = _world(NIGHT, ("can", 399, 1))
LESS = ("big", 400, 1), ("small", 399, 1)
PAIR = ("g1/big", "g1/small"), ("g1/big/open-1", "g1/small"), BIG

CASES = (
    _case("two of 400 mL", TWO, ("g1/can", "g1/can"), ("g1/can/open-1", "g1/can"), OPEN),
    _case("one of 400 mL", TWO, ("g1/can", ""), ("g1/can/open-1", ""), OPEN, 400),
    _case("only one listed", ONE, ("g1/can", ""), ("g1/can/open-1", ""), LITTLE, 399),
    _case("400 and 400 mL", _world(NIGHT, LESS[0], ("small", 400, 1)), *PAIR),
    _case("400 and 399 mL", _world(NIGHT, *LESS), *PAIR, 1),
    _case("51 % asked", _world(NIGHT, *LESS, container_share_percent=51), *PAIR),
    _case(
        "49 % asked of 400 and 400 mL",
        _world(NIGHT, LESS[0], ("small", 400, 1), container_share_percent=49),
        *PAIR,
        17,
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_it_is_said_where_one_container_holds_more_than_half(case):
    """On the first night at a camp a remark tells what is missing beside the fullest container."""
    assert remarked(case.problem, case.plan, RULE) == case.finds


def test_only_the_first_night_of_a_stay_is_asked():
    """Two cans of 400 mL are 600 mL on the second night, which is not asked of again."""
    problem = _world("strip-c1 c1 c1-strip", ("can", 400, 2))
    plan = plan_of(
        problem,
        {"m1": "g1/can g1/meal*2 g2/meal*2", "m2": "g1/can"},
        {"m1": "g1/can/empty-1", "m2": "g1/can"},
        weights={("g1/can/empty-1", 3): (100, 500)},
    )
    assert remarked(problem, plan, RULE) == ()
