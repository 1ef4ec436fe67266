"""Fuel spread: the checker with two, three and four containers of a cook group on a trip."""

import pytest

from solver.problem import Container, CookGroup, NightSet, Person, Problem, Purpose
from tests.rules.worlds import Case, found, item, person, plan_of, world

RULE = "fuel_spread"
EMPTY = {(f"g{g}/can/empty-{k}", 2): (100, 500) for g in (1, 2) for k in (1, 2, 3, 4)}


def _world(cans: int, people: tuple[Person, ...], groups: tuple[str, ...] = ("g1",)) -> Problem:
    """A night at c1 for which every group empties so many cans of 100 mL."""
    eaters = {g: sum(p.cook_group_id == g for p in people) for g in groups}
    return world(
        "strip-c1 c1-strip",
        people=people,
        groups=tuple(
            CookGroup(g, (("strip", "meal"), ("c1", "meal")), (Container("can", g, 100, 100, 500),))
            for g in groups
        ),
        night_sets=tuple(NightSet("meal", g, 10, 0, 0, 0, 100 * cans // eaters[g]) for g in groups),
    )


def _case(
    name: str,
    cans: int,
    up: dict[str, str],
    over: int = 0,
    *,
    second_pack_g: int = 20_000,
    solvable: bool = True,
) -> Case:
    """Two people of one group with a bag each; what comes down is empty and may be anywhere."""
    problem = _world(cans, (person("m1"), person("m2", pack_g=second_pack_g)))
    up = {who: f"{units} g1/meal" for who, units in up.items()}
    down = {"m1": " ".join(f"g1/can/empty-{k}" for k in range(1, cans + 1))}
    plan = plan_of(problem, up, down, weights=EMPTY)
    return Case(name, problem, plan, ((RULE, over),) if over else (), solvable)


def _gas(name, up, *over, owner_id=None, solvable=True, second_pack_g=20_000):
    """Two, three or four canisters of a kilogram in the gear, on every trip."""
    count = sum(int(units.partition("*")[2] or 1) for units in up.values() if units)
    gas = item("gas", purpose=Purpose.FUEL, count=count, owner_id=owner_id)
    people = (person("m1"), person("m2", pack_g=second_pack_g))
    problem = world(people=people, gear=(gas,))
    finds = tuple((RULE, n) for n in over) * 2
    return Case(name, problem, plan_of(problem, up, up), finds, solvable)


CASES = (
    _gas("canisters of the gear in one", {"m1": "gas*2"}, 1),
    _gas("canisters of the gear, one each", {"m1": "gas", "m2": "gas"}),
    _gas("two of three canisters", {"m1": "gas*2", "m2": "gas"}),
    _gas("three of four canisters", {"m1": "gas*3", "m2": "gas"}, 1),
    _gas("no room for the second", {"m1": "gas*2"}, 1, second_pack_g=999, solvable=False),
    _gas("somebody's own canisters", {"m1": "m1/gas*2"}, owner_id="m1"),
    _case("one each", 2, {"m1": "g1/can", "m2": "g1/can"}),
    _case("both in one", 2, {"m1": "g1/can*2", "m2": ""}, over=1),
    _case("half of four", 4, {"m1": "g1/can*2", "m2": "g1/can*2"}),
    _case("three of four", 4, {"m1": "g1/can*3", "m2": "g1/can"}, over=1),
    # A can weighs 170 g and a bag 10 g: 350 g take two cans and a bag, 339 g one can only.
    _case(
        "the second just takes two",
        4,
        {"m1": "g1/can*2", "m2": "g1/can*2"},
        second_pack_g=350,
    ),
    _case(
        "the second takes one alone",
        4,
        {"m1": "g1/can*3", "m2": "g1/can"},
        over=1,
        second_pack_g=339,
        solvable=False,
    ),
    _case("all four", 4, {"m1": "", "m2": "g1/can*4"}, over=2),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_one_pack_holds_at_most_half_of_the_containers_rounded_up(case):
    """Of k full containers of a cook group on a trip one carrier has at most half, rounded up."""
    assert found(case.problem, case.plan) == case.finds


def test_each_cook_group_is_judged_alone():
    """A can of each of two groups in one pack is no more than half of either."""
    people = (person("m1"), person("m2", cook_group_id="g2"))
    problem = _world(1, people, ("g1", "g2"))
    plan = plan_of(
        problem,
        {"m1": "g1/can g2/can g1/meal", "m2": "g2/meal"},
        {"m1": "g1/can/empty-1 g2/can/empty-1"},
        weights=EMPTY,
    )
    assert found(problem, plan) == ()


def test_an_open_container_counts_like_a_full_one():
    """An open and a full can in one pack are one too many; the empty ones do not count."""
    problem = world(
        "strip-c1 c1-c2 c2-c1-strip",
        people=(person("m1"), person("m2")),
        groups=(
            CookGroup(
                "g1",
                (("strip", "meal"), ("c1", "meal"), ("c2", "meal")),
                (Container("can", "g1", 300, 100, 500),),
            ),
        ),
        night_sets=(NightSet("meal", "g1", 10, 0, 0, 0, 100),),
    )
    opened = {("g1/can/open-1", 2): (170, 500), ("g1/can/open-2", 3): (240, 500)}
    empty = {("g1/can/empty-1", 3): (100, 500)}
    plan = plan_of(
        problem,
        {"m1": "g1/can g1/meal*4", "m2": "g1/can"},
        {"m1": "g1/can g1/can/open-1 g1/meal*2"},
        {"m1": "g1/can/open-2", "m2": "g1/can/empty-1"},
        {"m1": "g1/can/open-2 g1/can/empty-1"},
        weights=opened | empty,
    )
    assert found(problem, plan) == ((RULE, 1),)
