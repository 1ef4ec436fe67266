"""What whoever has the least cap carries, and why it is more than the party's mean."""

from __future__ import annotations

from dataclasses import replace

import pytest

from solver.checker import why_so_much
from solver.checker.queries.weak_share import HandOver, WeakShare
from solver.plan import Plan
from solver.problem import Pin, Problem, read_timeline
from solver.problem.weakest import least_cap_g, weakest_of
from tests.rules.worlds import EVERY_NIGHT, EVERY_TRIP, item, person, plan_of, world

WEAK = person("weak", pack_g=10_000)
STRONG = person("strong", pack_g=20_000)
GEAR = (
    item("box", EVERY_NIGHT, mass_g=2_000),
    item("pan", EVERY_NIGHT, mass_g=1_000),
    item("bag", EVERY_TRIP, mass_g=1_000, owner_id="weak"),
)
WORLD = world("strip-c1 c1-strip", people=(WEAK, STRONG), gear=GEAR)
UP, DOWN = "weak/bag pan", "weak/bag pan"


def _share(problem: Problem, plan: Plan) -> WeakShare:
    found = why_so_much(problem, plan, read_timeline(problem))
    assert found is not None
    return found


def _plan(problem: Problem, weak: str, strong: str) -> Plan:
    food = " g1/meal*2"
    return plan_of(
        problem, {"weak": weak, "strong": strong + food}, {"weak": weak, "strong": strong}
    )


def test_the_weakest_are_those_with_the_least_cap_or_limit() -> None:
    """A load limit below the pack cap counts; where all have the same nobody is weakest."""
    limited = replace(STRONG, person_id="spared", load_limit_g=9_000)
    assert least_cap_g(limited) == 9_000
    assert weakest_of((WEAK, STRONG)) == {"weak"}
    assert weakest_of((WEAK, STRONG, limited)) == {"spared"}
    assert weakest_of((STRONG, limited, WEAK, replace(limited, person_id="other"))) == {
        "spared",
        "other",
    }
    assert weakest_of((STRONG,)) == frozenset()
    alike = world("strip-c1 c1-strip", people=(STRONG, replace(STRONG, person_id="twin")))
    plan = plan_of(alike, {"strong": "g1/meal*2"}, {})
    assert why_so_much(alike, plan, read_timeline(alike)) is None


def test_a_smaller_share_needs_no_reason() -> None:
    """1 kg of 10 beside 3 kg of 20: the weak one has less than the mean."""
    found = _share(WORLD, _plan(WORLD, "weak/bag", "box pan"))
    assert (found.person_ids, found.cap_g, found.mean) == (("weak",), 10_000, 1_000)
    assert not found.is_above
    assert found.could_go is None


def test_own_kit_that_comes_to_more_is_the_reason() -> None:
    """6 kg of their own of 10 kg are more than the mean, whatever the others carry."""
    heavy = replace(WORLD, gear=(*GEAR[:2], replace(GEAR[2], mass_g=6_000)))
    found = _share(heavy, _plan(heavy, "weak/bag", "box pan"))
    assert found.is_above
    assert found.own_forces_it
    assert found.own == found.mean == 6_000


def test_what_could_go_to_somebody_else_is_named() -> None:
    """The heaviest shared thing first: the box could ride with the strong one."""
    found = _share(WORLD, _plan(WORLD, "weak/bag box pan", ""))
    assert found.is_above
    assert not found.own_forces_it
    assert found.own == 1_000
    assert found.could_go == HandOver(1, 1, "box", "weak", "strong")


def test_where_nobody_may_take_anything_no_hand_over_is_found() -> None:
    """Things that are pinned to the weak one stay there, and count as what must."""
    pins = tuple(Pin(u, day, 1, "weak") for u in ("box", "pan") for day in (1, 2))
    pinned = replace(WORLD, pins=pins)
    found = _share(pinned, _plan(pinned, "weak/bag box pan", ""))
    assert found.own_forces_it
    half = replace(WORLD, pins=(Pin("box", 1, 1, "weak"),))
    assert _share(half, _plan(half, "weak/bag box pan", "")).could_go == HandOver(
        2, 1, "box", "weak", "strong"
    )


@pytest.mark.parametrize("most_g", [1_500])
def test_without_room_elsewhere_nothing_is_tried(most_g: int) -> None:
    """With a cap of 1.5 kg of somebody just stronger there is no room for what is shared."""
    small = replace(STRONG, caps=replace(STRONG.caps, pack_g=most_g))
    weak = replace(WEAK, caps=replace(WEAK.caps, pack_g=most_g - 100))
    gear = (item("box", EVERY_NIGHT, mass_g=1_300), item("pan", EVERY_NIGHT, mass_g=1_250))
    full = world("strip-c1 c1-strip", people=(weak, small), gear=gear)
    plan = plan_of(
        full, {"weak": "box", "strong": "pan g1/meal*2"}, {"weak": "box", "strong": "pan"}
    )
    found = _share(full, plan)
    assert found.is_above
    assert (found.could_go, found.tried) == (None, 0)
