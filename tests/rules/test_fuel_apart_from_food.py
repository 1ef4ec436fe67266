"""Fuel apart from food: the checker with fuel and bags in one pack, on one sled, and apart."""

from dataclasses import replace

import pytest

from solver.checker import check
from solver.problem import Container, Problem, Purpose, Sled
from tests.rules.food_worlds import set_of, with_containers
from tests.rules.worlds import Case, asked_alone, item, person, plan_of, remarked, world

RULE = "fuel_apart_from_food"
SLED = Sled("s1", "m1", tare_g=1_000, mass_limit_g=90_000, volume_ml=90_000)


def _world(*, asked: bool = True) -> Problem:
    """Two people, one with a sled, a night at c1, a can that is opened there, and gas."""
    problem = world(
        "strip-c1 c1-strip",
        people=(person("m1", sled_g=40_000, pack_g=30_000, total_g=60_000), person("m2")),
        sleds=(SLED,),
        sled_leg_factors=(100, 100),
        night_sets=(set_of(fuel_ml=100),),
        gear=(replace(item("gas", mass_g=400), purpose=Purpose.FUEL), item("tarp")),
    )
    problem = with_containers(problem, Container("can", "g1", 1_000, 100, 1_500))
    return asked_alone(problem, RULE) if asked else problem


def _case(name: str, up: dict[str, str], *loads: int) -> Case:
    """Loads on the way up; on the way down the fuel is with m1 and there is no food."""
    problem = _world()
    down = {"m1": "gas tarp g1/can/open-1"}
    plan = plan_of(problem, up, down, weights={("g1/can/open-1", 2): (740, 1_500)})
    return Case(name, problem, plan, tuple((RULE, one) for one in loads))


CASES = (
    _case("apart", {"m1": "g1/can gas", "m2": "g1/meal*2 tarp"}),
    _case("pack and sled of one person", {"m1": "g1/can gas | g1/meal*2", "m2": "tarp"}),
    _case("a can in a pack with food", {"m1": "g1/can g1/meal*2", "m2": "gas tarp"}, 1),
    _case("gas in a pack with food", {"m1": "g1/can", "m2": "gas g1/meal*2 tarp"}, 1),
    _case("a can on a sled with food", {"m1": "gas | g1/can g1/meal*2", "m2": "tarp"}, 1),
    _case("two loads", {"m1": "gas g1/meal | g1/can g1/meal", "m2": "tarp"}, 1, 1),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_load_with_fuel_and_food_is_remarked(case: Case) -> None:
    """Each pack or sled with both counts once, however much of each is in it."""
    assert remarked(case.problem, case.plan, RULE) == case.finds


def test_the_words_name_load_trip_fuel_and_food() -> None:
    """The remark says in whose pack on which trip, which fuel and which food."""
    words = [
        remark.finding.message
        for remark in check(CASES[2].problem, CASES[2].plan).remarks
        if remark.finding.rule_id == RULE
    ]
    assert words == [
        "pack of m1 on day 1, strip to c1: g1/can with fuel in it rides with food, g1/meal"
    ]
