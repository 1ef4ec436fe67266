"""Stove when far: the checker three hours from camp and a hundredth more, with and without."""

from dataclasses import replace

import pytest

from solver.problem import Container, CookGroup, Purpose
from tests.rules.worlds import EVERY_NIGHT, MEAL, Case, found, glacier, item, person, plan_of, world

RULE = "stove_when_far"
TWO = (person("m1"), person("m2"))
KITCHEN = (
    item("stove", EVERY_NIGHT, purpose=Purpose.STOVE),
    item("pot", EVERY_NIGHT, purpose=Purpose.POT),
)


def _world(up, down, *, content_ml=200, gear=KITCHEN, days="strip-c1-strip", **numbers):
    """Two people on a leg of some hours, with a can of fuel that nothing else asks for."""
    can = Container("can", "g1", content_ml, tare_g=100, volume_ml=500, count=1)
    groups = (CookGroup("g1", (("strip", "meal"), ("c1", "meal")), (can,)),)
    problem = world(days, people=TWO, groups=groups, night_sets=(MEAL,), gear=gear)
    legs = tuple(replace(leg, hours_outbound=up, hours_homeward=down) for leg in problem.route.legs)
    problem = replace(problem, route=replace(problem.route, legs=legs))
    return glacier(problem, RULE, **numbers)


def _case(name, problem, load, *over, solvable=True):
    plan = plan_of(problem, *({"m1": load},) * 2)
    return Case(name, problem, plan, tuple((RULE, n) for n in over), solvable)


ALL = "stove pot g1/can"
FAR = _world(3.01, 2.0)
LESS = _world(3.01, 2.0, content_ml=199)
NOT_LISTED = _world(3.01, 2.0, gear=())

CASES = (
    _case("three hours", _world(3.0, 4.0), ""),
    _case("a hundredth more, with all", FAR, ALL),
    _case("without a stove", FAR, "pot g1/can", 1, 1),
    _case("without a pot", FAR, "stove g1/can", 1, 1),
    _case("without fuel", FAR, "stove pot", 200, 200),
    _case("1 mL too little", LESS, ALL, 1, 1, solvable=False),
    _case("2.99 hours asked", _world(2.99, 2.0, away_hours=2.99), ""),
    _case("nothing listed but fuel", NOT_LISTED, "g1/can"),
    _case("less than 100 mL asked", _world(3.01, 2.0, content_ml=198, away_fuel_ml=99), ALL),
    _case("hours not said", _world(None, 9.0), ""),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_party_far_from_camp_can_melt_snow(case):
    """Further than 3 hours from its camps a party has stove, pot and 100 mL for each with it."""
    assert found(case.problem, case.plan) == case.finds


def test_the_camp_that_the_party_moves_to_counts_as_near():
    """On a move of 4 hours each end is a camp of the day, so that nothing need ride."""
    problem = _world(4.0, 4.0, gear=(), days="strip-c1 c1-strip")
    assert found(problem, plan_of(problem, {"m1": "g1/meal*2"}, {})) == ()
