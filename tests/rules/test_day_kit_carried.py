"""Day kit carried: personal items of every trip in their owner's pack, or not."""

from dataclasses import replace

import pytest

from solver.problem import LegMode, Need, NeedKind, Person, Problem, Purpose, Sled
from tests.rules.worlds import Case, found, item, person, plan_of, world

RULE = "day_kit_carried"

WORLD = world(
    people=(person("m1", sled_g=20_000), person("m2")),
    gear=(item("shell", owner_id="m1"),),
    sleds=(Sled("s1", "m1", tare_g=1_000, mass_limit_g=90_000, volume_ml=90_000),),
    sled_leg_factors=(100, 100),
)

FROM_C1 = world(
    "strip-c1-c2-c1-strip",
    gear=(item("mitts", Need(NeedKind.EVERY_TRIP, from_place="c1"), owner_id="m1", count=2),),
)

AHEAD = replace(
    world("strip-c1-strip strip-c1-c2-c1-strip"),
    gear=(
        item(
            "mitts",
            Need(NeedKind.EVERY_TRIP, from_place="c1", may_go_ahead=True),
            owner_id="m1",
            count=2,
        ),
    ),
)
LEFT = ((RULE, 2), (RULE, 2))


def _case(name: str, problem, *trips: str, finds=()) -> Case:
    return Case(name, problem, plan_of(problem, *({"m1": units} for units in trips)), finds)


# m1 is spared, and the kit of m1 goes to the rope team: sleeping kit does, day kit does not.
SPARED = replace(person("m1"), load_limit_g=500, kit_to_rope_team=True)


def _team(purpose: Purpose | None, spared: Person = SPARED) -> Problem:
    """Two pieces of 250 g, needed on every trip, of somebody who has a rope-mate with a sled."""
    return world(
        "strip-c1-strip",
        people=(spared, person("m2", sled_g=20_000)),
        gear=(item("kit", owner_id="m1", count=2, mass_g=250, purpose=purpose),),
        sleds=(Sled("s2", "m2", tare_g=1_000, mass_limit_g=90_000, volume_ml=90_000),),
        sled_leg_factors=(100, 100),
    )


TEAM, DAY_KIT = _team(Purpose.SLEEPING_BAG), _team(None)
TOO_WEAK = _team(None, replace(SPARED, load_limit_g=499))


def _spared(name: str, own: str, other: str, *over: int, problem: Problem = TEAM) -> Case:
    loads = {"m1": own, "m2": other}
    finds = tuple((RULE, n) for n in over) * 2
    return Case(name, problem, plan_of(problem, loads, loads), finds, problem is not TOO_WEAK)


CASES = (
    _spared("sleeping kit in another's pack", "", "m1/kit*2"),
    _spared("sleeping kit in both packs", "m1/kit", "m1/kit"),
    _spared("one on another's sled", "m1/kit", "| m1/kit", 1),
    _spared("day kit in the own pack", "m1/kit*2", "", problem=DAY_KIT),
    _spared("day kit in another's pack", "", "m1/kit*2", 2, problem=DAY_KIT),
    _spared("day kit above the own limit", "", "m1/kit*2", 2, problem=TOO_WEAK),
    _case("in the pack", WORLD, "m1/shell", "m1/shell"),
    _case("on the own sled", WORLD, "| m1/shell", "m1/shell", finds=((RULE, 1),)),
    _case("left at the start", WORLD, "", "", finds=((RULE, 1), (RULE, 1))),
    _case("on the way there and back, too", FROM_C1, *["m1/mitts*2"] * 4),
    _case("on no trip", FROM_C1, "", "", "", "", finds=((RULE, 2),) * 4),
    _case(
        "sent ahead and not needed on the way there",
        AHEAD,
        "m1/mitts*2",
        "",
        "",
        *["m1/mitts*2"] * 3,
    ),
    _case("sent ahead and left there", AHEAD, "m1/mitts*2", *[""] * 4, "m1/mitts*2", finds=LEFT),
    _case(
        "one of two where needed",
        FROM_C1,
        "m1/mitts*2",
        "m1/mitts",
        "m1/mitts",
        "m1/mitts*2",
        finds=((RULE, 1), (RULE, 1)),
    ),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_day_kit_is_in_its_owners_pack_on_every_trip_that_needs_it(case):
    """What a person needs on a trip is in that pack, not on a sled and not left behind."""
    assert found(case.problem, case.plan) == case.finds


def test_what_is_in_use_weighs_nothing_and_still_must_ride():
    """Snowshoes worn on the leg add nothing to a pack; left behind, they are missed."""
    problem = world(
        people=(person(pack_g=1),),
        gear=(item("snowshoes", owner_id="m1", in_use_on=(LegMode.PACK,)),),
    )
    worn = {("m1/snowshoes", 1): (0, 0)}
    plan = plan_of(problem, *({"m1": "m1/snowshoes"},) * 2, weights=worn)
    assert found(problem, plan) == ()
    assert found(problem, plan_of(problem, {}, {})) == ((RULE, 1), (RULE, 1))
