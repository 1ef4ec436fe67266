"""The weak are favoured: what whoever has the least cap need not carry goes to others."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import numpy as np
import pytest

from solver.model.assignment.draft import Draft
from solver.model.assignment.load_fractions import trip_fractions
from solver.model.formulation.build_frame import build_frame
from solver.model.goals.soft_constraints import soft_constraints
from solver.model.goals.steady.relieve import relieve
from solver.model.goals.steady.weakest import weakest
from solver.model.goals.swap_counts import weighted_swaps
from tests.model.frames import index_of
from tests.rules.worlds import item, person, world

DAYS = "strip-c1 c1-strip"
STRONG, WEAK = person("m1"), person("m2", pack_g=12_000)


def _relieved(people, carried, limit=9_000):
    """Who carries two boxes of a kilogram after the weak were relieved, by box and trip."""
    frame = build_frame(world(DAYS, people=people, gear=(item("box", count=2), item("tin"))))
    ids = {name: index_of(frame, name) for name in ("box", "tin")}
    food = {
        (c.index, trip, "m1"): c.count
        for c in frame.world.cargo
        for trip in frame.allowed_trips[c.index]
        if c.index not in ids.values()
    }
    loads = {(ids[name], trip, who): units for (name, trip, who), units in carried.items()}
    draft = Draft({**food, **loads})
    before = weighted_swaps(frame, draft)
    after = relieve(frame, draft, soft_constraints(frame), (limit, limit), lambda: False)
    assert weighted_swaps(frame, after) <= before
    names = {index: name for name, index in ids.items()}
    return {
        (names[c], trip, who): units
        for (c, trip, who), units in after.carried.items()
        if c in names and units
    }


def test_the_weakest_are_those_with_the_least_cap_or_limit():
    """12 kg is the least of two caps, a limit of 8 kg is less; where all have it nobody is."""
    limited = replace(STRONG, person_id="m3", load_limit_g=8_000)
    assert weakest(world(DAYS, people=(STRONG, WEAK))) == {"m2"}
    assert weakest(world(DAYS, people=(STRONG, WEAK, limited))) == {"m3"}
    assert weakest(world(DAYS, people=(STRONG, replace(STRONG, person_id="m2")))) == set()


def test_what_others_have_room_for_leaves_the_weakest():
    """Two boxes and a tin of the weaker go to the stronger, who has room, on both trips."""
    carried = {("box", t, "m2"): 2 for t in (0, 1)} | {("tin", t, "m2"): 1 for t in (0, 1)}
    assert _relieved((STRONG, WEAK), carried) == {
        (name, trip, "m1"): units for name, units in (("box", 2), ("tin", 1)) for trip in (0, 1)
    }


def test_no_trip_passes_its_limit_for_it():
    """Where a full trip has no room left with the stronger, the weaker keeps what is over."""
    carried = {("box", t, "m2"): 2 for t in (0, 1)} | {("tin", t, "m2"): 1 for t in (0, 1)}
    assert _relieved((STRONG, WEAK), carried, limit=1_100) != {
        (name, trip, "m1"): units for name, units in (("box", 2), ("tin", 1)) for trip in (0, 1)
    }


def test_people_with_like_caps_keep_their_loads():
    """Without anybody weaker nothing moves."""
    carried = {("box", t, "m2"): 2 for t in (0, 1)} | {("tin", t, "m2"): 1 for t in (0, 1)}
    assert _relieved((STRONG, replace(STRONG, person_id="m2")), carried) == carried


@pytest.mark.parametrize("seed", range(14, 18))
def test_no_unit_is_left_with_the_weakest_that_others_could_have_for_nothing(seed):
    """Boxes with anybody on a trip: none moves on by itself without a swap, or above the limit."""
    chance, third = np.random.default_rng(seed), replace(STRONG, person_id="m3")
    gear = [item(f"box-{n}", mass_g=int(chance.integers(300, 2_500)), count=3) for n in range(5)]
    frame = build_frame(world(DAYS, people=(STRONG, WEAK, third), gear=tuple(gear)))
    carried = Counter()
    for cargo, trips in enumerate(frame.allowed_trips):
        for trip in trips:
            for _ in range(frame.world.cargo[cargo].count):
                choice = frame.may_carry[cargo, trip]
                carried[cargo, trip, choice[chance.integers(len(choice))].carrier_id] += 1
    draft = Draft(dict(carried))
    limits, constraints = tuple(trip_fractions(frame, draft)), soft_constraints(frame)
    after = relieve(frame, draft, constraints, limits, lambda: False)
    least = weighted_swaps(frame, after)
    assert least <= weighted_swaps(frame, draft)
    for (cargo, trip, carrier_id), units in after.carried.items():
        if carrier_id != "m2" or not units:
            continue
        for other in frame.may_carry[cargo, trip]:
            moved = Counter(after.carried)
            moved[cargo, trip, carrier_id] -= 1
            moved[cargo, trip, other.carrier_id] += 1
            if other.person_id != "m2":
                others = Draft(dict(+moved))
                fits = trip_fractions(frame, others)[trip] <= limits[trip]
                assert not fits or weighted_swaps(frame, others) > least
