"""Turn round stock held: the checker with food and fuel for more than two nights, and for two."""

from dataclasses import replace

import pytest

from solver.problem import Container, CookGroup, PlaceKind, RuleSettings
from tests.rules.guest_worlds import with_guest
from tests.rules.worlds import MEAL, Case, found, glacier, person, plan_of, world

RULE = "turn_round_stock_held"
# Nights: c1, c2, c2, c1, c1, c1. After the second one four are left and nobody turns homeward.
DAYS = "strip-c1-strip-c1 c1-c2 c2 c2-c1 c1 c1 c1-strip"


def _food(name, to_c2, *over, pack_g=40, solvable=True, **numbers):
    """One person with a set for each night, of whom some go on to c2 and some wait at c1."""
    problem = glacier(world(DAYS, people=(person(pack_g=pack_g),)), RULE, **numbers)
    back = {"m1": f"g1/meal*{to_c2 - 2}"} if to_c2 > 2 else {}
    three = {"m1": "g1/meal*3"}
    plan = plan_of(problem, three, {}, three, {"m1": f"g1/meal*{to_c2}"}, back, {})
    return Case(name, problem, plan, tuple((RULE, n) for n in over), solvable)


def _fuel(name, to_c2, *over, **numbers):
    """The same with all food at hand, and a can of 100 mL for each night."""
    can = Container("can", "g1", 100, tare_g=100, volume_ml=200, count=6)
    set_at = tuple((place, "meal") for place in ("strip", "c1", "c2"))
    problem = world(
        DAYS,
        groups=(CookGroup("g1", set_at, (can,)),),
        night_sets=(replace(MEAL, fuel_ml=100),),
        rules=RuleSettings(switched_off=frozenset({"fuel_spread"})),
    )
    problem = glacier(problem, RULE, **numbers)
    empty = [f"g1/can/empty-{n}" for n in range(1, 7)]
    back = f"g1/can*{to_c2 - 2}" if to_c2 > 2 else ""
    plan = plan_of(
        problem,
        {"m1": "g1/meal*6 g1/can*6"},
        {},
        {},
        {"m1": f"g1/meal*5 g1/can*{to_c2}"},
        {"m1": f"g1/meal*3 {empty[1]} {empty[2]} {back}"},
        {"m1": " ".join(empty)},
        weights={(unit, day): (100, 200) for unit in empty for day in (4, 7)},
    )
    return Case(name, problem, plan, tuple((RULE, n) for n in over))


def _homeward():
    """Nights at c2, c1 and the strip, where a set waits: every day turns homeward."""
    problem = glacier(world("strip-c1-c2 c2-c1 c1-strip strip"), RULE)
    plan = plan_of(problem, {"m1": "g1/meal*2"}, {"m1": "g1/meal"}, {}, {})
    return Case("on the way home", problem, plan)


def _at_the_road():
    """A night at the strip with food for two of three nights, and no more brought that day."""
    problem = world("strip strip-c1-c2 c2-c1-strip")
    strip, *others = problem.route.places
    road = replace(strip, kind=PlaceKind.ROAD_HEAD)
    problem = replace(problem, route=replace(problem.route, places=(road, *others)))
    problem = glacier(problem, RULE)
    plan = plan_of(problem, {"m1": "g1/meal"}, {"m1": "g1/meal"}, {}, {})
    return Case("at a road head", problem, plan)


def _at_the_start(name, kind, *over):
    """Two nights at the strip and two at c1, to which a pack takes one set a day."""
    problem = world(
        "strip-c1-strip strip strip-c1 c1 c1-strip",
        people=(person(pack_g=10),),
        night_sets=(replace(MEAL, bag_count=4),),
    )
    strip, *others = problem.route.places
    places = (replace(strip, kind=kind), *others)
    problem = glacier(replace(problem, route=replace(problem.route, places=places)), RULE)
    plan = plan_of(problem, {"m1": "g1/meal"}, {}, {"m1": "g1/meal"}, {})
    return Case(name, problem, plan, tuple((RULE, n) for n in over), not over)


FUEL = (
    _fuel("300 mL", 4),
    _fuel("200 mL", 3, 1),
    _fuel("200 mL where more than one night is asked", 3, turn_round_nights=1),
)
CASES = (
    _food("three nights of four left", 4),
    _food("two nights", 3, 1),
    _food("one night", 2, 2),
    _food("two nights where more than one is asked", 3, turn_round_nights=1),
    _food("one night where more than one is asked", 2, 1, turn_round_nights=1),
    _food("no pack takes three nights and tonight", 3, 1, pack_g=39, solvable=False),
    *FUEL,
    *map(with_guest, FUEL),
    _homeward(),
    _at_the_start("at a road head", PlaceKind.ROAD_HEAD),
    _at_the_start("at an airstrip", PlaceKind.AIRSTRIP, 1),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_group_that_goes_on_has_food_and_fuel(case):
    """Who does not turn homeward has food and fuel for more than two nights, or to the end."""
    assert found(case.problem, case.plan) == case.finds


def test_what_waits_at_the_next_camp_counts():
    """After the first night at c1 what was carried on to c2, where the group moves, is at hand."""
    problem = glacier(world("strip-c1-c2-c1 c1-c2 c2 c2 c2-c1-strip"), RULE)
    plan = plan_of(problem, {"m1": "g1/meal*4"}, {"m1": "g1/meal*3"}, *({},) * 4)
    assert found(problem, plan) == ()
