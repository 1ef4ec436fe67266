"""Stove survives loss: the checker with two stoves apart, together, and with one only."""

import pytest

from solver.checker import check
from solver.problem import Purpose
from tests.rules.worlds import EVERY_NIGHT, Case, found, glacier, item, person, plan_of, world

RULE = "stove_survives_loss"
TWO = (person("m1"), person("m2"))


def _world(days, count):
    gear = (item("stove", EVERY_NIGHT, count=count, purpose=Purpose.STOVE),)
    return glacier(world(days, people=TWO, gear=gear), RULE)


OVER_NIGHT = "strip-c1 c1-strip"
PAIR = _world(OVER_NIGHT, 2)
SINGLE = _world(OVER_NIGHT, 1)
CARRY = _world("strip-c1-strip strip-c1 c1-strip", 2)
LOOK = _world("strip-c1-c2-c1-strip strip", 2)
FOOD = "g1/meal*2"
DOWN = {"m1": "stove*2"}
DAY_OUT = glacier(world(gear=(item("stove", purpose=Purpose.STOVE),)), RULE)


def _carry(name, out, back, *over):
    up = {"m1": f"stove {FOOD}", "m2": "stove"}
    plan = plan_of(CARRY, {"m1": out}, {"m1": back}, up, DOWN)
    return Case(name, CARRY, plan, tuple((RULE, n) for n in over))


CASES = (
    Case("in two packs", PAIR, plan_of(PAIR, {"m1": f"stove {FOOD}", "m2": "stove"}, DOWN)),
    Case("in one pack", PAIR, plan_of(PAIR, {"m1": f"stove*2 {FOOD}"}, DOWN), ((RULE, 1),)),
    Case(
        "one only",
        SINGLE,
        plan_of(SINGLE, {"m1": f"stove {FOOD}"}, {"m1": "stove"}),
        ((RULE, 1),),
        solvable=False,
    ),
    _carry("both wait at the strip", "", ""),
    _carry("one rides, one waits", "stove", "stove"),
    _carry("both ride together", "stove*2", "stove*2", 1, 1),
    Case("one at the third place of the day", LOOK, plan_of(LOOK, *({"m1": "stove"},) * 4)),
    Case(
        "both on a long day",
        LOOK,
        plan_of(LOOK, *({"m1": "stove*2"},) * 4),
        ((RULE, 1),) * 4,
    ),
    Case("no night to come", DAY_OUT, plan_of(DAY_OUT, *({"m1": "stove"},) * 2)),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_stove_is_left_whichever_pack_is_lost(case):
    """Stoves at the places of a party's day, less those in any one pack, are at least one."""
    assert found(case.problem, case.plan) == case.finds


def test_the_finding_names_the_pack_that_may_not_be_lost():
    """The worst loss is told by pack and trip, with what would not be left."""
    case = CASES[1]
    told = check(case.problem, case.plan).findings[0]
    assert told.message == (
        "day 1, strip to c1: were the pack of m1 lost, there would be no stove within the party's "
        "reach"
    )
    assert ("person", "m1") in told.where
