"""Owner carries: personal items with their owner and with somebody else."""

from dataclasses import replace

import pytest

from solver.problem import Problem, Sled
from tests.rules.worlds import EVERY_NIGHT, Case, found, item, person, plan_of, world

RULE = "owner_carries"

WORLD = world(
    "strip-c1 c1-strip",
    people=(person("m1"), person("m2", sled_g=20_000)),
    gear=(
        item("bag", EVERY_NIGHT, owner_id="m1"),
        item("bag", EVERY_NIGHT, owner_id="m2", count=2),
    ),
    sleds=(Sled("s2", "m2", tare_g=1_000, mass_limit_g=90_000, volume_ml=90_000),),
    sled_leg_factors=(100, 100),
)
FOOD = "g1/meal*2"


def _case(name: str, up: dict[str, str], *over: int) -> Case:
    down = {"m1": "m1/bag", "m2": "m2/bag*2"}
    return Case(name, WORLD, plan_of(WORLD, up, down), tuple((RULE, n) for n in over))


# m1 is spared: a bag in the pack of m1 would be too much, and m3 is of another rope team.
SPARED = replace(person("m1"), load_limit_g=500, kit_to_rope_team=True)
TEAM = world(
    "strip-c1|strip-c1 c1-strip|c1-strip",
    people=(SPARED, person("m2"), person("m3", rope_team_id="r2")),
    gear=(item("bag", EVERY_NIGHT, owner_id="m1"),),
)
KEPT = replace(
    TEAM, roster=(replace(SPARED, kit_to_rope_team=False, load_limit_g=1_000), *TEAM.roster[1:])
)
UNLIMITED = replace(TEAM, roster=(replace(SPARED, load_limit_g=None), *TEAM.roster[1:]))


def _spared(name: str, problem: Problem, team: str, other: str, *over: int) -> Case:
    """The bag of m1 with m2, of the same rope team, or with m3 on the way up; with m1 down."""
    up = ({"m2": f"{team} g1/meal*3"}, {"m3": other})
    down = ({"m1" if problem is KEPT else "m2": "m1/bag"}, {})
    return Case(name, problem, plan_of(problem, *up, *down), tuple((RULE, n) for n in over))


CASES = (
    _spared("with one of the rope team of one spared", TEAM, "m1/bag", ""),
    _spared("with one of another rope team", TEAM, "", "m1/bag", 1),
    _spared("spared without the wish", KEPT, "m1/bag", "", 1),
    _spared("the wish without a limit", UNLIMITED, "m1/bag", ""),
    _case("own packs", {"m1": f"m1/bag {FOOD}", "m2": "m2/bag*2"}),
    _case("own pack and own sled", {"m1": f"m1/bag {FOOD}", "m2": "m2/bag | m2/bag"}),
    _case("on another's sled", {"m1": FOOD, "m2": "m2/bag*2 | m1/bag"}, 1),
    _case("two in another's pack", {"m1": f"m1/bag m2/bag*2 {FOOD}"}, 2),
    _case("swapped", {"m1": f"m2/bag*2 {FOOD}", "m2": "m1/bag"}, 2, 1),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_personal_item_rides_with_its_owner(case):
    """A personal item rides in its owner's pack or on the owner's sled, counted by the unit."""
    assert found(case.problem, case.plan) == case.finds
