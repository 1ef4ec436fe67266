"""Kitchen for each group: the checker with a stove and a pot for each cook group, and fewer."""

from dataclasses import replace

import pytest

from solver.checker import check
from solver.problem import CookGroup, Need, NeedKind, Purpose
from tests.rules.guest_worlds import guest_of
from tests.rules.worlds import MEAL, Case, found, glacier, item, person, plan_of, world

RULE = "kitchen_for_each_group"
PEOPLE = (person("m1"), person("m2", cook_group_id="g2"))
SET_AT = (("strip", "meal"), ("c1", "meal"))
GROUPS = (CookGroup("g1", SET_AT), CookGroup("g2", SET_AT))
SETS = (MEAL, replace(MEAL, cook_group_id="g2"))
LATER = Need(NeedKind.EVERY_NIGHT, from_place="c2", may_go_ahead=True)
"""Of use only beyond c1, so that no other rule asks where it is."""


def _world(days, *, stoves, pots, places="strip c1"):
    set_at = tuple((place, "meal") for place in places.split())
    gear = tuple(
        item(name, LATER, count=count, purpose=purpose)
        for name, count, purpose in (("stove", stoves, Purpose.STOVE), ("pot", pots, Purpose.POT))
        if count
    )
    groups = tuple(replace(group, set_at=set_at) for group in GROUPS)
    problem = world(days, people=PEOPLE, groups=groups, night_sets=SETS, gear=gear)
    return glacier(problem, RULE)


FOOD = "g1/meal g2/meal"
# A look at c2 on the second day makes it part of the route.
DAYS = "strip-c1 c1-c2-c1-strip"


def _case(name, problem, kit, *over, solvable=True):
    plan = plan_of(problem, {"m1": f"{kit} {FOOD}"}, {}, {}, {"m1": kit})
    return Case(name, problem, plan, tuple((RULE, n) for n in over), solvable)


ONE_EACH = _world(DAYS, stoves=1, pots=1)
TWO = _world(DAYS, stoves=2, pots=2)

CASES = (
    _case("two of each", TWO, "stove*2 pot*2"),
    _case("one stove", TWO, "stove pot*2", 1),
    _case("one pot", TWO, "stove*2 pot", 1),
    _case("neither", TWO, "", 2, 2),
    _case("one of each listed", ONE_EACH, "stove pot", 1, 1, solvable=False),
    _case("one of each for a kitchen with guests", guest_of(ONE_EACH, "g2"), "stove pot"),
    _case("none for a kitchen with guests", guest_of(ONE_EACH, "g2"), "", 1, 1),
    _case("pots not listed", _world(DAYS, stoves=2, pots=0), "stove*2"),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_each_cook_group_has_a_stove_and_a_pot(case):
    """Stoves and pots at a camp are at least the cook groups that sleep there."""
    assert found(case.problem, case.plan) == case.finds


def test_nights_in_a_row_are_told_once():
    """Two nights without a second stove are one finding that names both."""
    problem = _world("strip-c1 c1 c1-c2-c1-strip", stoves=1, pots=0)
    food = "g1/meal*2 g2/meal*2"
    plan = plan_of(problem, {"m1": f"stove {food}"}, {}, {}, {"m1": "stove"})
    told = [f for f in check(problem, plan).findings if f.rule_id == RULE]
    assert [f.message for f in told] == [
        "c1 on the nights of days 1 to 2: 2 cook groups sleep there, 1 stoves too few"
    ]
