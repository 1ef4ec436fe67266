"""Severe allergens apart: the checker with food of two cook groups with and among each other."""

from dataclasses import replace

import pytest

from solver.checker import check
from solver.problem import CookGroup, Sled
from tests.rules.guest_worlds import guest_of
from tests.rules.worlds import MEAL, Case, found, person, plan_of, world

RULE = "severe_allergens_apart"
SET_AT = (("strip", "meal"), ("c1", "meal"))
REACTS = replace(person("m1"), reacts_to=("nuts",))
PEOPLE = (REACTS, person("m2"), person("m3", sled_g=20_000, cook_group_id="g2"))
SLED = Sled("s3", "m3", tare_g=100, mass_limit_g=9_000, volume_ml=9_000)


def _world(contains=("nuts",), people=PEOPLE):
    sets = (MEAL, replace(MEAL, cook_group_id="g2", contains=contains))
    return world(
        "strip-c1 c1-strip",
        people=people,
        groups=(CookGroup("g1", SET_AT), CookGroup("g2", SET_AT)),
        night_sets=sets,
        sleds=(SLED,),
        sled_leg_factors=(100, 100),
    )


def _case(name, problem, up, *over, solvable=True):
    plan = plan_of(problem, up, {})
    return Case(name, problem, plan, tuple((RULE, n) for n in over), solvable)


NUTS, MILK = _world(), _world(("milk",))
NOBODY = _world(people=(person("m1"), *PEOPLE[1:]))
AVOIDS = _world(people=(replace(person("m1"), avoids=("nuts",)), *PEOPLE[1:]))
BOTH = _world(people=(REACTS, PEOPLE[1], replace(PEOPLE[2], reacts_to=("milk",))))
WEAK = _world(people=(*PEOPLE[:2], person("m3", pack_g=9, cook_group_id="g2")))
WEAK = replace(WEAK, sleds=())

THIRD = _world(("milk",))
THIRD = guest_of(
    replace(
        THIRD,
        roster=(*THIRD.roster, person("m4", cook_group_id="g3")),
        cook_groups=(*THIRD.cook_groups, CookGroup("g3", SET_AT)),
        night_sets=(*THIRD.night_sets, replace(MEAL, cook_group_id="g3", contains=("nuts",))),
    ),
    "g2",
)
"""A third group beside a kitchen with a guest, none of whose bags it may carry."""

CASES = (
    _case("each group its own", NUTS, {"m1": "g1/meal", "m2": "g1/meal", "m3": "g2/meal"}),
    _case("nuts with who reacts", NUTS, {"m1": "g1/meal*2 g2/meal"}, 1),
    _case("nuts with another of the group", NUTS, {"m1": "g1/meal*2", "m2": "g2/meal"}, 1),
    _case("clean food with others", NUTS, {"m3": "g1/meal*2 g2/meal"}, 2),
    _case("clean food on another's sled", NUTS, {"m1": "g1/meal", "m3": "g2/meal | g1/meal"}, 1),
    _case("nuts on the sled of another", NUTS, {"m1": "g1/meal*2", "m3": "| g2/meal"}),
    _case("milk with who reacts to nuts", MILK, {"m1": "g1/meal*2 g2/meal"}),
    _case(
        "clean food with others all the same", MILK, {"m1": "g1/meal", "m3": "g1/meal g2/meal"}, 1
    ),
    _case(
        "clean food with a guest of the kitchen", guest_of(MILK, "g2"), {"m3": "g1/meal*2 g2/meal"}
    ),
    _case("clean food of a guest with others", THIRD, {"m4": "g1/meal*2 g2/meal g3/meal"}, 2, 1),
    _case("nobody reacts", NOBODY, {"m1": "g2/meal", "m3": "g1/meal*2"}),
    _case("avoided only", AVOIDS, {"m1": "g2/meal", "m3": "g1/meal*2"}),
    _case("each group has one who reacts", BOTH, {"m1": "g1/meal*2", "m3": "g2/meal"}),
    _case(
        "the other group cannot carry its own", WEAK, {"m1": "g1/meal*2 g2/meal"}, 1, solvable=False
    ),
)


LEFT = {("trash/c1/g1/1-1", 2): (20, 100), ("trash/c1/g2/1-1", 2): (5, 25)}


def _home(name, first, third, *over, contains=("nuts",), solvable=True, **parts):
    """A night at c1 leaves 10 g of packaging of each of two people of g1, 5 g of one of g2."""
    problem = _world(contains, **parts)
    sets = tuple(
        replace(s, packaging_g=10 if s.cook_group_id == "g1" else 5) for s in problem.night_sets
    )
    problem = replace(problem, night_sets=sets)
    up = {"m1": "g1/meal*2", "m3": "g2/meal"}
    plan = plan_of(problem, up, {"m1": first, "m3": third}, weights=LEFT)
    return Case(name, problem, plan, tuple((RULE, n) for n in over), solvable)


G1, G2 = "trash/c1/g1/1-1", "trash/c1/g2/1-1"
TRASH = (
    _home("trash of nuts with who reacts", f"{G1} {G2}", "", 1),
    _home("each group its own trash", G1, G2),
    _home("clean trash with the others", "", f"{G1} {G2}"),
    _home("trash of nuts on the other's sled", G1, f"| {G2}"),
    _home("trash of milk with who reacts to nuts", f"{G1} {G2}", "", contains=("milk",)),
)
CASES = (*CASES, *TRASH)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_food_with_the_allergen_and_clean_food_do_not_meet(case):
    """Neither rides with the other's people, be it in a pack or on a sled."""
    assert found(case.problem, case.plan) == case.finds


def test_the_finding_names_the_allergen():
    """The finding says what would come near whom, where."""
    case = CASES[1]
    told = check(case.problem, case.plan).findings[0].message
    assert told == (
        "pack of m1 on day 1, strip to c1: 1 g2/meal in it, where nuts would come near people "
        "who react severely"
    )


def test_trash_is_packed_together_where_nobody_reacts():
    """Without anybody who reacts the trash of a stay is in one sack, whoever ate."""
    problem = replace(NOBODY, night_sets=TRASH[0].problem.night_sets)
    plan = plan_of(
        problem,
        {"m1": "g1/meal*2", "m3": "g2/meal"},
        {"m1": "trash/c1/1-1"},
        weights={("trash/c1/1-1", 2): (25, 125)},
    )
    assert found(problem, plan) == ()
