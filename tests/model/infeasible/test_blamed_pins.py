"""Pins that clash, found among many."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import pytest

from solver.model.infeasible.blamed_pins import smallest_clash
from solver.model.infeasible.pin_words import tell_pins
from solver.model.infeasible.pinned_rules import PinnedWorld
from solver.model.instance.world import build_world
from solver.model.rows import PinRow
from solver.outcome import Conflict
from solver.problem import Pin
from solver.progress import Watch
from tests.rules.worlds import EVERY_NIGHT, item, world

PINS = [PinRow("pins_kept", n, n, 0, "m1", 1) for n in range(20)]


@pytest.mark.parametrize("clash", [{3}, {0, 19}, {4, 5, 6}, set(range(20))], ids=str)
def test_just_the_pins_that_clash_are_found(clash: set[int]) -> None:
    """Of twenty pins those without which the rest could be kept, in few questions."""
    asked = 0

    def refuses(pins: Sequence[PinRow]) -> bool:
        nonlocal asked
        asked += 1
        return clash <= {row.pin for row in pins}

    assert {row.pin for row in smallest_clash(PINS, refuses)} == clash
    assert asked <= 12 * len(clash)


def test_pins_are_told_by_number_load_and_trip() -> None:
    """The first pin tells the rule, the others say which they are."""
    pins = (Pin("tent", 1, 1, "m1"), Pin("pan", 1, 1, "m1", count=2))
    pinned = PinnedWorld(build_world(replace(world("strip-c1 c1-strip"), pins=pins)), 1, Watch(9.0))
    told = tell_pins(
        pinned.world, pinned.pins, Conflict("pack_cap_held", "So.", amount=7, unit="g")
    )
    assert told.message == (
        "Pins 1 and 2 cannot all be kept: 1 tent in the pack of m1 on day 1, strip to c1; "
        "2 pan in the pack of m1 on day 1, strip to c1. So."
    )
    assert (told.rule_id, told.amount) == ("pack_cap_held", 7)
    assert [dict(one.where)["pin"] for one in (told, *told.more)] == [1, 2]


def test_a_world_says_which_pins_leave_no_plan() -> None:
    """Without pins there is a plan; with more units than there are there is none."""
    gear = (item("pan", EVERY_NIGHT),)
    pins = (Pin("pan", 1, 1, "m1", count=2),)
    problem = replace(world("strip-c1 c1-strip", gear=gear), pins=pins)
    pinned = PinnedWorld(build_world(problem), 1, Watch(9.0))
    for refuses in (pinned.refuses_divisible, pinned.refuses_whole):
        assert not refuses(())
        assert refuses(pinned.pins)
    assert pinned.broken_rule(pinned.pins).rule_id == "units_conserved"
