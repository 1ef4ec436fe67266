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
from solver.model.goals.steady.ask_loads import ask_loads
from solver.model.goals.steady.ask_relief import ask_relief
from solver.model.goals.steady.expedition import read_expedition
from solver.model.goals.steady.question import Question
from solver.model.goals.steady.relieve import relieve
from solver.model.goals.steady.shares import above_others
from solver.model.goals.steady.weakest import weakest
from solver.model.goals.steady.window import all_of, deal_window
from solver.model.goals.swap_counts import weighted_swaps
from solver.model.work import Work
from tests.model.frames import draft_of, index_of
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
    after = relieve(frame, draft, soft_constraints(frame), (limit, limit), Work(), pay=False)
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


PIECES = ("a", "b", "c", "d")
MASSES_G = (2_000, 2_000, 2_000, 9_000)
PAID = build_frame(
    world(
        DAYS,
        people=(STRONG, WEAK),
        gear=tuple(item(n, mass_g=g) for n, g in zip(PIECES, MASSES_G, strict=True)),
    )
)
"""Three single pieces of 2 kg, and one of 9 kg that leaves no room for them on the way back."""


def _trips(there, back):
    """A draft in which the weaker has some pieces on the way there, and some on the way back."""
    loads = [
        {
            "m1": " ".join([n for n in PIECES if n not in weak] + ["g1/meal*2"] * (weak is there)),
            "m2": " ".join(weak),
        }
        for weak in (there, back)
    ]
    return draft_of(PAID, *loads)


def _weak_has(draft):
    """How many pieces the weaker has on the way there, and on the way back."""
    return tuple(
        sum(units for (_, trip, who), units in draft.carried.items() if (trip, who) == (at, "m2"))
        for at in (0, 1)
    )


def _above(draft, limits):
    read = read_expedition(PAID, draft, soft_constraints(PAID), limits)
    return above_others(read)


def test_the_weakest_are_relieved_at_the_price_of_swaps():
    """Nobody else has room on the way back; on the way there pieces change hands."""
    draft = _trips("abc", "abc")
    limits = (9_000, trip_fractions(PAID, draft)[1])
    after = relieve(PAID, draft, soft_constraints(PAID), limits, Work(), pay=True)
    assert _above(draft, limits) > 0 >= _above(after, limits)
    assert weighted_swaps(PAID, after) > weighted_swaps(PAID, draft) == 0
    there, back = _weak_has(after)
    assert there < back == 3


def test_whoever_has_less_than_others_already_is_not_relieved_at_the_price_of_swaps():
    """One piece there and one back is less than the mean: only what costs no swap may go."""
    draft = _trips("a", "a")
    limits = (9_000, trip_fractions(PAID, draft)[1])
    assert _above(draft, limits) < 0
    after = relieve(PAID, draft, soft_constraints(PAID), limits, Work(), pay=True)
    assert weighted_swaps(PAID, after) == 0


@pytest.mark.parametrize(("kilo", "there"), [(0.1, 3), (1.2, 0)])
def test_a_window_gives_up_swaps_for_the_weakest_where_a_kilogram_costs_more(kilo, there):
    """A piece of 2 kg less on the way there is a swap that counts 2: worth it from 1 a kilogram."""
    draft = _trips("abc", "abc")
    limits = (9_000, trip_fractions(PAID, draft)[1])
    read = read_expedition(PAID, draft, soft_constraints(PAID), limits)
    free = {trip: all_of(read, trip) for trip in (0, 1)}
    deal_window(read, free, Work(), seconds=2.0, kilo=kilo)
    assert _weak_has(read.draft()) == (there, 3)


def test_only_what_weighs_on_the_weakest_costs_more_in_a_question():
    """At 0.3 a kilogram 2 kg cost 0.6 of a swap with the weaker, nothing with the stronger."""
    draft = _trips("abc", "abc")
    read = read_expedition(PAID, draft, soft_constraints(PAID), (9_000, 9_000))
    question, one = Question(), read.trips[0]
    asked = ask_loads(question, one, all_of(read, 0), None)
    swap = question.column(1, cost=3)
    ask_relief(question, [asked], 0.3)
    into_weak = (one.person[asked.into] == 1) & (one.load.mass[asked.first][asked.of] == 2_000)
    costs = np.array(question.cost[asked.offset : asked.offset + len(asked.of)])
    assert into_weak.sum() == 3
    assert costs[into_weak].tolist() == [60, 60, 60]
    assert costs[one.person[asked.into] == 0].sum() == 0
    assert question.cost[swap] == 300


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
    after = relieve(frame, draft, constraints, limits, Work(), pay=False)
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
