"""Cache loss survived: the checker with the last food and fuel in a cache, and beside it."""

from dataclasses import replace

import pytest

from solver.checker import check
from solver.problem import Container, CookGroup, Direction, LegMode, RuleSettings
from tests.rules.guest_worlds import with_guest
from tests.rules.worlds import MEAL, Case, found, glacier, person, plan_of, world

RULE = "cache_loss_survived"
# Nights: c1, c2, c2, c2. On day 3 what is still at c1 is fetched.
DAYS = "strip-c1 c1-c2 c2-c1-c2 c2 c2-c1-strip"
SHORT = "strip-c1 c1-c2 c2-c1-c2 c2-c1-strip"


def _food(name, first, *over, bags=4, days=DAYS, who=None, solvable=True, **numbers):
    """One person who takes some sets to c2 on day 2 and the rest on day 3."""
    meal = replace(MEAL, bag_count=bags)
    problem = world(
        days, people=(who or person(),), night_sets=(meal,), sled_leg_factors=(100, 100)
    )
    problem = glacier(problem, RULE, **numbers)
    rest = f"g1/meal*{bags - 1 - first}" if first < bags - 1 else ""
    plan = plan_of(
        problem, {"m1": f"g1/meal*{bags}"}, {"m1": f"g1/meal*{first}"}, {}, {"m1": rest}, {}, {}
    )
    return Case(name, problem, plan, tuple((RULE, n) for n in over), solvable)


def _fuel(name, content_ml, *over):
    """A second can waits at c1 for the third night, when the first of three nights is empty."""
    can = Container("can", "g1", content_ml, tare_g=100, volume_ml=500, count=2)
    set_at = tuple((place, "meal") for place in ("strip", "c1", "c2"))
    problem = world(
        SHORT,
        groups=(CookGroup("g1", set_at, (can,)),),
        night_sets=(replace(MEAL, fuel_ml=100),),
        rules=RuleSettings(switched_off=frozenset({"fuel_spread"})),
    )
    problem = glacier(problem, RULE)
    one = "g1/can/open-1"
    left = f"{one} g1/can" if content_ml > 300 else "g1/can/empty-1 g1/can/open-2"
    weights = {(one, 2): (100 + ((content_ml - 100) * 700 + 500) // 1000, 500)}
    weights[one, 3] = 100 + ((content_ml - 200) * 700 + 500) // 1000, 500
    weights[one, 4] = 100 + ((content_ml - 300) * 700 + 500) // 1000, 500
    weights["g1/can/empty-1", 4] = 100, 500
    weights["g1/can/open-2", 4] = 100 + ((2 * content_ml - 300) * 700 + 500) // 1000, 500
    plan = plan_of(
        problem,
        {"m1": "g1/can*2 g1/meal*3"},
        {"m1": f"{one} g1/meal*2"},
        {"m1": one},
        {"m1": f"{one} g1/can"},
        {"m1": left},
        {"m1": left},
        weights=weights,
    )
    return Case(name, problem, plan, tuple((RULE, n) for n in over))


# On the leg from c1 to c2 these take two sets, or one.
TWO_AT_A_TIME = person(pack_by_leg=((LegMode.PACK, Direction.OUTBOUND, 20),))
ONE_AT_A_TIME = person(pack_by_leg=((LegMode.PACK, Direction.OUTBOUND, 10),))

FUEL = (_fuel("101 mL in the open can", 301), _fuel("99 mL in the open can", 299, 1))
CASES = (
    _food("all at c2", 3),
    _food("one more at c2", 2),
    _food("none more at c2", 1, 1),
    _food("one at c2, two asked", 2, 1, cache_loss_nights=2),
    _food("two at c2, two asked", 3, cache_loss_nights=2),
    _food("none asked", 1, cache_loss_nights=0),
    _food("a pack for two", 2, who=TWO_AT_A_TIME),
    _food("a pack for one", 1, 1, who=ONE_AT_A_TIME, bags=3, days=SHORT, solvable=False),
    *FUEL,
    *map(with_guest, FUEL),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_group_lives_through_the_loss_of_a_cache(case):
    """Food and fuel at camp and on the way home, but for one unguarded place, last a night."""
    assert found(case.problem, case.plan) == case.finds


def test_each_unguarded_place_on_the_way_home_is_lost_in_turn():
    """With one set at c1 and one at the strip either loss leaves the other; c1 alone does not."""
    meal = replace(MEAL, bag_count=4)
    problem = glacier(world(SHORT, night_sets=(meal,)), RULE)
    plan = plan_of(problem, {"m1": "g1/meal*3"}, {"m1": "g1/meal"}, {}, {"m1": "g1/meal"}, {}, {})
    assert found(problem, plan) == ()
    problem = replace(problem, night_sets=(replace(MEAL, bag_count=3),))
    told = [f for f in check(problem, plan).findings if f.rule_id == RULE]
    words = "were all at c1 lost, 1 night sets too little would be left on its way home"
    assert [f.message for f in told] == [
        f"cook group g1 on the night of day 2 at c2: {words}",
    ]
