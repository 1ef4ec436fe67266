"""Shelter survives loss: the checker with places for all, one too few, and people elsewhere."""

from dataclasses import replace

import pytest

from solver.checker import check
from solver.problem import CookGroup, Purpose
from tests.rules.worlds import EVERY_NIGHT, MEAL, Case, found, glacier, item, person, plan_of, world

RULE = "shelter_survives_loss"
TWO = (person("m1"), person("m2"))


def _shelter(name, places, **more):
    return item(name, EVERY_NIGHT, purpose=Purpose.SHELTER, shelter_places=places, **more)


def _world(*gear, people=TWO, days="strip-c1 c1-strip"):
    return glacier(world(days, people=people, gear=gear), RULE)


FOOD = "g1/meal*2"


def _case(name, problem, up, down, *over, solvable=True):
    plan = plan_of(problem, {**up, "m1": f"{up['m1']} {FOOD}"}, down)
    return Case(name, problem, plan, tuple((RULE, n) for n in over), solvable)


BOTH = _world(_shelter("tent", 2), _shelter("bivy", 2))
SMALL = _world(_shelter("tent", 2), _shelter("bivy", 1))
MANY = _world(_shelter("bivy", 1, count=3))
ONE = _world(_shelter("tent", 3))
APART = {"m1": "tent", "m2": "bivy"}

CASES = (
    _case("a tent and a bivouac bag for two", BOTH, APART, APART),
    _case("both in one pack on the way up", BOTH, {"m1": "tent bivy"}, APART, 2),
    _case("one place too few either way", SMALL, APART, APART, 1, 1, solvable=False),
    _case(
        "three bags, two packs",
        MANY,
        {"m1": "bivy", "m2": "bivy*2"},
        {"m1": "bivy*3"},
        1,
        2,
        solvable=False,
    ),
    _case("one tent", ONE, {"m1": "tent"}, {"m2": "tent"}, 2, 2, solvable=False),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_shelters_left_cover_everybody(case):
    """Shelter places within reach, less those in any one pack, are at least the people there."""
    assert found(case.problem, case.plan) == case.finds


def test_people_who_are_elsewhere_need_no_place():
    """While m2 is at the strip, days from and to it want places for two, a day at c1 for one."""
    set_at = tuple((place, "meal") for place in ("strip", "c1"))
    groups = (CookGroup("g1", set_at), CookGroup("g2", set_at))
    sets = (MEAL, replace(MEAL, cook_group_id="g2"))
    people = (person("m1"), person("m2", rope_team_id="r2", cook_group_id="g2"))
    gear = (item("tent", purpose=Purpose.SHELTER, shelter_places=2, rope_team_id="r1"),)
    problem = world(
        "strip-c1|strip c1-c2-c1|strip c1-strip|strip",
        people=people,
        gear=gear,
        groups=groups,
        night_sets=sets,
    )
    problem = glacier(problem, RULE)
    tent = {"m1": "tent"}
    findings = check(problem, plan_of(problem, {"m1": "tent g1/meal*2"}, *(tent,) * 3)).findings
    assert [(f.rule_id, f.amount) for f in findings] == [(RULE, n) for n in (2, 1, 1, 2)]
