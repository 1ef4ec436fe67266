"""Communicator survives loss: the checker with two in packs, and with one that is worn."""

from dataclasses import replace

import pytest

from solver.checker import check
from solver.problem import CookGroup, Need, NeedKind, Purpose
from tests.rules.worlds import (
    EVERY_NIGHT,
    EVERY_TRIP,
    MEAL,
    Case,
    found,
    glacier,
    item,
    person,
    plan_of,
    world,
)

RULE = "communicator_survives_loss"
TWO = (person("m1"), person("m2"))
WORN = Need(NeedKind.WORN)
FOOD = "g1/meal*2"


def _radio(name="radio", need=EVERY_NIGHT, **more):
    return item(name, need, purpose=Purpose.COMMUNICATOR, **more)


def _case(name, gear, up, down, *over, solvable=True):
    problem = glacier(world("strip-c1 c1-strip", people=TWO, gear=gear), RULE)
    plan = plan_of(problem, {**up, "m1": f"{up.get('m1', '')} {FOOD}"}, down)
    return Case(name, problem, plan, tuple((RULE, n) for n in over), solvable)


APART = {"m1": "radio", "m2": "radio"}
TOGETHER = {"m1": "radio*2"}
ONE = {"m1": "radio"}

CASES = (
    _case("two in two packs", (_radio(count=2),), APART, APART),
    _case("two in one pack, out", (_radio(count=2),), TOGETHER, APART, 1),
    _case("two in one pack, home", (_radio(count=2),), APART, TOGETHER, 1),
    _case("one", (_radio(),), ONE, ONE, 1, 1, solvable=False),
    _case("one, and one worn", (_radio(), _radio("beacon", WORN, owner_id="m2")), ONE, ONE),
    _case("worn by the party", (_radio("beacon", WORN, rope_team_id="r1"),), {}, {}),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_communicator_is_left_whichever_pack_is_lost(case):
    """Communicators within reach, less those in any one pack, and worn ones are at least one."""
    assert found(case.problem, case.plan) == case.finds


def test_what_somebody_elsewhere_wears_is_of_no_use():
    """A beacon worn by m2 at the strip serves days from and to it, not a day at c1."""
    set_at = tuple((place, "meal") for place in ("strip", "c1"))
    groups = (CookGroup("g1", set_at), CookGroup("g2", set_at))
    sets = (MEAL, replace(MEAL, cook_group_id="g2"))
    people = (person("m1"), person("m2", rope_team_id="r2", cook_group_id="g2"))
    gear = (_radio(rope_team_id="r1", need=EVERY_TRIP), _radio("beacon", WORN, owner_id="m2"))
    problem = world(
        "strip-c1|strip c1-c2-c1|strip c1-strip|strip",
        people=people,
        gear=gear,
        groups=groups,
        night_sets=sets,
    )
    problem = glacier(problem, RULE)
    radio = {"m1": "radio"}
    findings = check(problem, plan_of(problem, {"m1": "radio g1/meal*2"}, *(radio,) * 3)).findings
    assert [(f.rule_id, dict(f.where)["day"]) for f in findings] == [(RULE, 2), (RULE, 2)]
