"""Load limit held: the checker with somebody spared at the limit, and 1 g above it."""

from dataclasses import replace

import pytest

from solver.problem import Sled
from tests.rules.worlds import EVERY_NIGHT, Case, found, item, person, plan_of, world

RULE = "load_limit_held"
SLED = Sled("s1", "m1", tare_g=400, mass_limit_g=90_000, volume_ml=90_000)


def _case(name, limit_g, loads, *over, solvable=True, **parts):
    """m1 is spared, m2 is not; there is a kilogram to carry out and back."""
    weak = replace(person("m1", sled_g=20_000, **parts), load_limit_g=limit_g)
    problem = world(
        people=(weak, person("m2")),
        gear=(item("rope"),),
        sleds=(SLED,) if "|" in loads.get("m1", "") else (),
        sled_leg_factors=(100, 100),
    )
    finds = tuple((RULE, n) for n in over) * 2
    return Case(name, problem, plan_of(problem, loads, loads), finds, solvable)


def _second(name, limit_g, *over, solvable=True, hauler="m1"):
    """m2, who has 3 kg of their own, pulls 30 % of a sled of at most 20.001 kg, or 70 % of it."""
    people = (person("m1", sled_g=20_000), person("m2", sled_g=20_000))
    problem = world(
        people=(people[0], replace(people[1], load_limit_g=limit_g)),
        gear=(item("own", mass_g=3_000, owner_id="m2"), item("kit", mass_g=6_000)),
        sleds=(
            Sled(
                "s1",
                hauler,
                tare_g=400,
                mass_limit_g=20_001,
                volume_ml=90_000,
                second_hauler_id="m1" if hauler == "m2" else "m2",
                second_share_percent=30,
            ),
        ),
        sled_leg_factors=(100, 100),
    )
    loads = {"m1": "kit", "m2": "m2/own"}
    finds = tuple((RULE, n) for n in over) * 2
    return Case(name, problem, plan_of(problem, loads, loads), finds, solvable)


OWN = world(
    "strip-c1 c1-strip",
    people=(replace(person("m1"), load_limit_g=999), person("m2")),
    gear=(item("bag", EVERY_NIGHT, owner_id="m1"),),
)
FOOD = "g1/meal*2"

CASES = (
    _case("at the limit", 1_000, {"m1": "rope"}),
    _case("1 g over", 999, {"m1": "rope"}, 1),
    _case("on somebody else", 999, {"m2": "rope"}),
    _case("water is in it", 1_200, {"m1": "rope"}, 1, water_g=201),
    _case("water at the limit", 1_201, {"m1": "rope"}, water_g=201),
    _case("the sled is in it", 1_399, {"m1": " | rope"}, 1),
    _case("the sled at the limit", 1_400, {"m1": " | rope"}),
    _case("water alone is too much", 200, {"m2": "rope"}, 1, water_g=201, solvable=False),
    _second("two haulers: 30 % of 20.001 kg, rounded up, and 3 kg", 9_001),
    _second("two haulers, a gram above", 9_000, 1, solvable=False),
    _second("the first of two has no share but their own", 17_001, hauler="m2"),
    _second("the first of two, a gram above", 17_000, 1, solvable=False, hauler="m2"),
    Case(
        "own things too heavy",
        OWN,
        plan_of(OWN, {"m1": "m1/bag", "m2": FOOD}, {"m1": "m1/bag"}),
        ((RULE, 1), (RULE, 1)),
        solvable=False,
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_somebody_spared_carries_at_most_the_limit(case):
    """Pack and sled together, both gross, are at most what was set for the person."""
    assert found(case.problem, case.plan) == case.finds
