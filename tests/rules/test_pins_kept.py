"""Pins kept: loads made by hand in their pack, in another, on a sled, too few, and impossible."""

from __future__ import annotations

from dataclasses import replace

import pytest

from solver.outcome import Infeasible, Limits, Solved
from solver.pipeline import plan
from solver.problem import Container, CookGroup, Pin, Problem, Sled
from solver.problem.faults import find_faults
from tests.rules.worlds import EVERY_NIGHT, Case, found, item, person, plan_of, world

RULE = "pins_kept"
LIMITS = Limits(wall_seconds=20.0, workers=1, seed=1)

WORLD = world(
    "strip-c1 c1-strip",
    people=(person("m1"), person("m2", sled_g=20_000)),
    gear=(
        item("tent", EVERY_NIGHT),
        item("picket", EVERY_NIGHT, count=3),
        item("bag", EVERY_NIGHT, owner_id="m1"),
    ),
    sleds=(Sled("s2", "m2", tare_g=1_000, mass_limit_g=90_000, volume_ml=90_000),),
    sled_leg_factors=(100, 100),
)
UP = {"m1": "m1/bag tent picket*2 g1/meal*2", "m2": "picket"}
DOWN = {"m1": "m1/bag picket*3", "m2": "| tent"}


def _with(*pins: Pin, problem: Problem = WORLD) -> Problem:
    return replace(problem, pins=pins)


def _case(name: str, *over: int, pins: tuple[Pin, ...], solvable: bool = True) -> Case:
    problem = _with(*pins)
    return Case(name, problem, plan_of(problem, UP, DOWN), tuple((RULE, n) for n in over), solvable)


TENT_UP = Pin("tent", 1, 1, "m1")
PICKETS_UP = Pin("picket", 1, 1, "m1", count=2)
CASES = (
    _case("none", pins=()),
    _case("in its pack", pins=(TENT_UP,)),
    _case("more than are pinned", pins=(replace(PICKETS_UP, count=1),)),
    _case("as many as are pinned", pins=(PICKETS_UP,)),
    _case("all that there are", pins=(Pin("picket", 2, 1, "m1", count=3),)),
    _case("one too few", 1, pins=(replace(PICKETS_UP, count=3),)),
    _case("with another", 1, pins=(replace(TENT_UP, person_id="m2"),)),
    _case("on the sled", pins=(Pin("tent", 2, 1, "m2", on_sled=True),)),
    _case("in the pack of who has it on the sled", 1, pins=(Pin("tent", 2, 1, "m2"),)),
    _case("two pins", 1, 3, pins=(Pin("tent", 2, 1, "m1"), Pin("picket", 2, 1, "m2", count=3))),
    _case("more than there are", 2, pins=(replace(PICKETS_UP, count=4),), solvable=False),
    _case("somebody else's kit", 1, pins=(Pin("m1/bag", 1, 1, "m2"),), solvable=False),
)


@pytest.mark.parametrize("case", CASES, ids=str)
def test_a_pin_counts_what_is_not_in_its_load(case: Case) -> None:
    """Each pin is short by the units that are in no other place than its own pack or sled."""
    assert found(case.problem, case.plan) == case.finds


def test_a_pin_of_a_trip_that_nobody_makes_is_a_fault() -> None:
    """Faults name the pin's day, step, person or sled, and what there is instead."""
    pins = (
        Pin("tent", 3, 1, "m1"),
        Pin("tent", 1, 2, "m1"),
        Pin("tent", 1, 1, "m1", on_sled=True),
    )
    assert [(f.where, f.code) for f in find_faults(_with(*pins))] == [
        (("pins", 0, "day"), "no_such_trip"),
        (("pins", 1, "step"), "no_such_trip"),
        (("pins", 2, "on_sled"), "no_sled_there"),
    ]
    told = find_faults(_with(TENT_UP, TENT_UP, Pin("tent", 1, 1, "m3", count=0)))
    assert [(f.where, f.code) for f in told] == [
        (("pins", 1), "duplicate_id"),
        (("pins", 2, "person_id"), "unknown_id"),
        (("pins", 2, "count"), "too_small"),
    ]


# Each world, its pins, and the rule with which the refusal names them.
SHORT = world("strip-c1 c1-strip", people=(person("m1", pack_g=2_000), person("m2", pack_g=9_000)))
HEAVY = replace(SHORT, gear=(item("box", EVERY_NIGHT, mass_g=1_500), item("pan", EVERY_NIGHT)))
CANS = (Container("can", "g1", content_ml=100, tare_g=100, volume_ml=100, count=3),)
FUELLED = replace(
    world("strip-c1 c1-strip", people=(person("m1"), person("m2"))),
    cook_groups=(CookGroup("g1", (("c1", "meal"),), CANS),),
)
FAR = world("strip-c1 c1-strip-c1 c1-strip", gear=(item("pan", EVERY_NIGHT),))
REFUSED = {
    "too much for one pack": (
        HEAVY,
        (Pin("box", 1, 1, "m1"), Pin("pan", 1, 1, "m1")),
        ("pack_cap_held", 500),
    ),
    "all the fuel in one pack": (
        FUELLED,
        (Pin("g1/can", 1, 1, "m2", count=3),),
        ("fuel_spread", 1),
    ),
    "food on its way home before it is eaten": (
        FUELLED,
        (Pin("g1/meal", 2, 1, "m1", count=2),),
        ("night_sets_held", 2),
    ),
    "two trips of one thing that never came back": (
        WORLD,
        (Pin("picket", 1, 1, "m1", count=2), Pin("picket", 1, 1, "m2", count=2)),
        ("units_conserved", 1),
    ),
}


@pytest.mark.parametrize("name", REFUSED)
def test_a_pin_that_breaks_a_rule_is_named_with_it(name: str) -> None:
    """The refusal names the pins, the rule that they break, and by how much."""
    problem, pins, broken = REFUSED[name]
    outcome = plan(_with(*pins, problem=problem), LIMITS)
    assert isinstance(outcome, Infeasible)
    (conflict,) = outcome.conflicts
    assert (conflict.rule_id, conflict.amount) == broken
    told = [dict(one.where) for one in (conflict, *conflict.more)]
    assert [where["pin"] for where in told] == list(range(1, len(pins) + 1))


def test_a_pin_may_send_a_thing_on_a_detour() -> None:
    """A pan that would stay at c1 goes down and up again on day 2 where both are pinned."""
    assert isinstance(plan(_with(problem=FAR), LIMITS), Solved)
    outcome = plan(_with(Pin("pan", 2, 1, "m1"), Pin("pan", 2, 2, "m1"), problem=FAR), LIMITS)
    assert isinstance(outcome, Solved)
    down, up = outcome.plan.trips[1:3]
    assert all("pan" in {u.unit_id for u in trip.loads[0].pack} for trip in (down, up))


def test_without_a_plan_anyway_pins_are_not_blamed() -> None:
    """Where even no pins leave no plan, the refusal says what it says without them."""
    heavy = replace(HEAVY, gear=(item("box", EVERY_NIGHT, mass_g=30_000),))
    asked = _with(Pin("box", 1, 1, "m1"), problem=heavy)
    outcome, without = plan(asked, LIMITS), plan(heavy, LIMITS)
    assert isinstance(outcome, Infeasible)
    assert isinstance(without, Infeasible)
    assert outcome.conflicts == without.conflicts
