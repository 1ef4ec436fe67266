"""Kinds kept apart: the checker with one, two and three units of a kind on a trip."""

import pytest

from solver.problem import Item, Sled
from tests.rules.worlds import EVERY_NIGHT, Case, found, item, person, plan_of, world

RULE = "kinds_kept_apart"
TWO = (person("m1", sled_g=20_000), person("m2"))
SLED = Sled("s1", "m1", tare_g=1_000, mass_limit_g=90_000, volume_ml=90_000)


def _stoves(count: int) -> Item:
    return item("stove", count=count, apart_kind="stove")


def _case(
    name: str,
    gear: tuple[Item, ...],
    people,
    loads: dict[str, str],
    *,
    over: int = 0,
    solvable=True,
) -> Case:
    """A day out and back with a sled on its leg, loaded alike both ways."""
    problem = world(people=people, gear=gear, sleds=(SLED,), sled_leg_factors=(100, 100))
    finds = ((RULE, over),) * (2 if over else 0)
    return Case(name, problem, plan_of(problem, loads, loads), finds, solvable)


PUMPS = (item("pump", apart_kind="pump"), item("spare-pump", apart_kind="pump"))
HAULER = (person("m1", sled_g=20_000),)

# The second person can carry one stove of four, so the first must carry three.
UNLIKE = world(people=(person("m1"), person("m2", pack_g=1_900)), gear=(_stoves(4),))
ALONE = world(gear=(_stoves(2),))

CASES = (
    _case("one alone", (_stoves(1),), TWO, {"m1": "stove"}),
    _case("two in two packs", (_stoves(2),), TWO, {"m1": "stove", "m2": "stove"}),
    _case("two in one pack", (_stoves(2),), TWO, {"m1": "stove*2"}, over=1),
    _case("pack and sled of one person", (_stoves(2),), HAULER, {"m1": "stove | stove"}),
    _case("two on one sled", (_stoves(2),), TWO, {"m1": "| stove*2"}, over=1),
    _case("two of three in one pack", (_stoves(3),), TWO, {"m1": "stove*2", "m2": "stove"}),
    _case("three in one pack", (_stoves(3),), TWO, {"m2": "stove*3"}, over=1),
    _case("unlike units of a kind", PUMPS, TWO, {"m1": "pump spare-pump"}, over=1),
    Case("three of four", UNLIKE, plan_of(UNLIKE, *({"m1": "stove*3", "m2": "stove"},) * 2)),
    Case(
        "nobody to share with",
        ALONE,
        plan_of(ALONE, *({"m1": "stove*2"},) * 2),
        ((RULE, 1), (RULE, 1)),
        solvable=False,
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_no_pack_or_sled_has_all_of_a_kind(case):
    """Of k >= 2 units of a kind on a trip one pack or sled holds at most k - 1."""
    assert found(case.problem, case.plan) == case.finds


def test_one_person_without_a_sled_cannot_keep_two_apart():
    """Two stoves in the only pack of a party are too many by one, whatever the plan."""
    problem = world(gear=(_stoves(2),))
    assert found(problem, plan_of(problem, *({"m1": "stove*2"},) * 2)) == ((RULE, 1), (RULE, 1))


def test_only_units_of_the_same_trip_count():
    """Two stoves that ride different trips are each alone on their own."""
    spare = item("stove", EVERY_NIGHT, count=2, apart_kind="stove")
    problem = world("strip-c1-strip-c1 c1-strip-c1-strip", gear=(spare,))
    plan = plan_of(
        problem,
        {"m1": "stove"},
        {"m1": ""},
        {"m1": "stove g1/meal"},
        {"m1": "stove"},
        {"m1": ""},
        {"m1": "stove"},
    )
    assert found(problem, plan) == ()
