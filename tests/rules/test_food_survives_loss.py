"""Food survives loss: the checker with night sets in two packs, in one, and by cook group."""

from dataclasses import replace

import pytest

from solver.problem import CookGroup
from tests.rules.worlds import MEAL, Case, found, glacier, person, plan_of, world

RULE = "food_survives_loss"
TWO = (person("m1"), person("m2"))


def _world(days, bags, *, people=TWO, sets_per_bag=1, **numbers):
    meal = replace(MEAL, bag_count=bags, sets_per_bag=sets_per_bag)
    return glacier(world(days, people=people, night_sets=(meal,)), RULE, **numbers)


def _case(name, problem, first, second, left, *over, solvable=True):
    """Bags of night sets in both packs on the way up, those not used in one on the way down."""
    up = {"m1": f"g1/meal*{first}", "m2": f"g1/meal*{second}"}
    down = {"m2": f"g1/meal*{left}"} if left else {}
    plan = plan_of(problem, up, down)
    return Case(name, problem, plan, tuple((RULE, n) for n in over), solvable)


NIGHT, STAY = "strip-c1 c1-strip", "strip-c1 c1 c1-strip"

CASES = (
    _case("two sets in each pack", _world(NIGHT, 4), 2, 2, 2),
    _case("three and one", _world(NIGHT, 4), 3, 1, 2, 1),
    # With one left at the strip the same three would do; two would not.
    _case("two and one", _world(NIGHT, 3), 2, 1, 1, 1),
    _case("one each", _world(NIGHT, 2), 1, 1, 0, 1, solvable=False),
    _case("bags of two sets", _world(NIGHT, 2, sets_per_bag=2), 1, 1, 1),
    _case("two nights, 24 hours", _world(STAY, 4), 2, 2, 0),
    _case("two nights, 25 hours", _world(STAY, 4, loss_food_hours=25), 2, 2, 0, 2, solvable=False),
    _case("one night, 48 hours", _world(NIGHT, 4, loss_food_hours=48), 2, 2, 2),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_food_left_lasts_whichever_pack_is_lost(case):
    """Night sets within reach, less those in any one pack, last 24 hours or to the last night."""
    assert found(case.problem, case.plan) == case.finds


def test_each_cook_group_needs_its_own_food():
    """Group g2's food rides whole in one pack and is missed, though group g1's is in two."""
    people = (person("m1"), person("m2", cook_group_id="g2"))
    set_at = (("strip", "meal"), ("c1", "meal"))
    groups = (CookGroup("g1", set_at), CookGroup("g2", set_at))
    sets = (replace(MEAL, bag_count=2), replace(MEAL, cook_group_id="g2", bag_count=2))
    problem = world("strip-c1 c1-strip", people=people, groups=groups, night_sets=sets)
    problem = glacier(problem, RULE)
    up = {"m1": "g1/meal g2/meal*2", "m2": "g1/meal"}
    plan = plan_of(problem, up, {"m1": "g1/meal g2/meal"})
    assert found(problem, plan) == ((RULE, 1),)
