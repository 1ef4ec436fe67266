"""Pieces dealt out again in windows: the fewest swaps of all, no limit passed, the same each time.

On tiny worlds every way of sharing out is tried.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import numpy as np
import pytest

from solver.model.assignment.draft import Draft
from solver.model.assignment.load_fractions import trip_fractions
from solver.model.formulation.build_frame import build_frame
from solver.model.formulation.frame import Frame
from solver.model.goals.preferences import count_violated
from solver.model.goals.soft_constraints import soft_constraints
from solver.model.goals.steady.ask_loads import ask_loads
from solver.model.goals.steady.ask_preferences import BROKEN, ask_preferences
from solver.model.goals.steady.ask_swaps import ask_swaps
from solver.model.goals.steady.costs import count_swaps
from solver.model.goals.steady.deal_out import deal_out
from solver.model.goals.steady.expedition import Expedition, read_expedition
from solver.model.goals.steady.least_swaps import least_swaps
from solver.model.goals.steady.pairs import deal_pairs, swapped_between
from solver.model.goals.steady.question import Answer, Question, answered
from solver.model.goals.steady.room import room_of
from solver.model.goals.steady.window import all_of, deal_window, held_by
from solver.model.goals.swap_counts import weighted_swaps
from solver.model.run import Run
from solver.model.work import Work
from solver.problem import Purpose
from tests.model.frames import box, draft_of, problem_of, two_with
from tests.rules.worlds import asked_alone, item, person

THREE = tuple(person(f"m{n}") for n in (1, 2, 3))
FRAME = two_with(box("a", 3_000), box("b", 3_000), box("c", 2_000))
SWAPPED = draft_of(FRAME, {"m1": "a c", "m2": "b g1/meal*2"}, {"m1": "b", "m2": "a c"})


def _read(frame: Frame, draft: Draft, limits: list[int]) -> Expedition:
    return read_expedition(frame, draft, soft_constraints(frame), limits)


def _everything(expedition: Expedition) -> dict[int, object]:
    return {trip: all_of(expedition, trip) for trip in range(len(expedition.trips))}


def _ways(frame: Frame, loads: dict[str, int], limits: list[int]) -> list[tuple[int, int]]:
    """Preferences broken and swaps of every way to share out boxes and bags under the limits."""
    people = [p.person_id for p in problem_of(frame).roster]
    up = [name for name, count in loads.items() for _ in range(count)]
    down = [name for name in up if name != "g1/meal"]
    found = []
    for first, second in product(
        set(product(people, repeat=len(up))), set(product(people, repeat=len(down)))
    ):
        trips: list[dict[str, str]] = []
        for names, whose in ((up, first), (down, second)):
            held: dict[str, dict[str, int]] = {}
            for name, who in zip(names, whose, strict=True):
                held.setdefault(who, {}).setdefault(name, 0)
                held[who][name] += 1
            trips.append(
                {who: " ".join(f"{n}*{k}" for n, k in its.items()) for who, its in held.items()}
            )
        draft = draft_of(frame, *trips)
        fits = zip(trip_fractions(frame, draft), limits, strict=True)
        if all(fraction <= limit for fraction, limit in fits):
            broken = count_violated(frame, draft, soft_constraints(frame))
            found.append((broken, weighted_swaps(frame, draft)))
    return found


@pytest.mark.parametrize("room", [0, 200, 1_000, 5_000])
def test_a_window_over_all_finds_the_fewest_swaps_of_all_ways(room: int) -> None:
    """Three boxes and two bags, from no room at all to plenty."""
    limits = [fraction + room for fraction in trip_fractions(FRAME, SWAPPED)]
    expedition = _read(FRAME, SWAPPED, limits)
    deal_window(expedition, _everything(expedition), Work(), seconds=10.0)
    draft = expedition.draft()
    assert draft.rides() == SWAPPED.rides()
    fits = zip(trip_fractions(FRAME, draft), limits, strict=True)
    assert all(fraction <= limit for fraction, limit in fits)
    ways = _ways(FRAME, {"a": 1, "b": 1, "c": 1, "g1/meal": 2}, limits)
    assert weighted_swaps(FRAME, draft) == min(swapped for _, swapped in ways)
    dealt = deal_out(FRAME, SWAPPED, soft_constraints(FRAME), limits, Work())
    assert weighted_swaps(FRAME, dealt) == min(swapped for _, swapped in ways)
    assert 0 <= least_swaps(expedition, Work()) <= min(swapped for _, swapped in ways)


def test_swaps_that_limits_force_are_proven_and_none_where_work_is_over() -> None:
    """Three boxes of 6 kg: out one person has room for two, home the other, so one must change."""
    strong, weak = person("m1", pack_g=20_000), person("m2", pack_g=20_000)
    frame = two_with(*(box(name, 6_000) for name in "abc"), people=(strong, weak))
    draft = draft_of(frame, {"m1": "a b", "m2": "c g1/meal*2"}, {"m1": "a", "m2": "b c"})
    expedition = _read(frame, draft, trip_fractions(frame, draft))
    assert least_swaps(expedition, Work()) == 0
    out, home = expedition.trips
    for one, person_at in ((out, 1), (home, 0)):
        rows = np.unique(one.load.rows_of[one.person == person_at])
        one.most[rows] = one.load.load[rows]
    assert least_swaps(expedition, Work()) == 2
    assert least_swaps(expedition, Work(most=0)) == 0


@pytest.mark.parametrize("room", [0, 200, 1_000, 5_000])
def test_preferences_come_before_swaps_as_among_all_ways(room: int) -> None:
    """Gas apart from bags first, then the fewest swaps: the least of both in that order."""
    gas = replace(box("gas", 900), purpose=Purpose.FUEL)
    frame = two_with(gas, box("a", 3_000), box("b", 2_500))
    frame = build_frame(asked_alone(problem_of(frame), "fuel_apart_from_food"))
    mixed = draft_of(frame, {"m1": "a", "m2": "b gas g1/meal*2"}, {"m1": "b gas", "m2": "a"})
    limits = [fraction + room for fraction in trip_fractions(frame, mixed)]
    dealt = deal_out(frame, mixed, soft_constraints(frame), limits, Work())
    ways = _ways(frame, {"a": 1, "b": 1, "gas": 1, "g1/meal": 2}, limits)
    broken = count_violated(frame, dealt, soft_constraints(frame))
    assert (broken, weighted_swaps(frame, dealt)) == min(ways)
    assert max(ways) > min(ways)


def test_a_question_costs_what_preferences_and_swaps_count() -> None:
    """What the columns start at costs as much as the loads as they stand."""
    gas = replace(item("gas", mass_g=400), purpose=Purpose.FUEL)
    frame = build_frame(
        asked_alone(problem_of(two_with(gas, box("a", 3_000))), "fuel_apart_from_food")
    )
    draft = draft_of(frame, {"m1": "a", "m2": "gas g1/meal*2"}, {"m1": "gas", "m2": "a"})
    expedition = _read(frame, draft, [9_000, 9_000])
    question = Question()
    asked = {
        trip: ask_loads(question, expedition.trips[trip], all_of(expedition, trip), None)
        for trip in (0, 1)
    }
    for its in asked.values():
        ask_preferences(question, its)
    ask_swaps(question, expedition, asked)
    cost = sum(c * n for c, n in zip(question.cost, question.start, strict=True))
    assert cost == BROKEN * 1 + count_swaps(expedition)
    for row in question.rows:
        total = sum(f * question.start[c] for c, f in zip(row.columns, row.factors, strict=True))
        assert (row.unless is not None and question.start[row.unless]) or total <= row.upper
        assert row.lower is None or total >= row.lower


def test_a_question_without_costs_is_not_asked() -> None:
    """Where nothing costs anything there is nothing to find; a start that costs is improved."""
    question = Question()
    first, second = question.column(1, cost=2, start=0), question.column(1)
    question.row([(first, 1), (second, 1)], 1, lower=1)
    assert answered(question, Run(1.0, steady=True)) == Answer(None, 0.0, proven=True)
    question.start = [1, 0]
    answer = answered(question, Run(1.0, steady=True))
    assert answer.values is not None
    assert answer.proven
    assert list(answer.values) == [0, 1]


def test_two_people_share_out_only_what_they_have() -> None:
    """The third keeps everything; what the two swapped they swap no longer."""
    frame = two_with(box("a", 3_000), box("b", 3_000), box("c", 2_000), people=THREE)
    draft = draft_of(
        frame,
        {"m1": "a", "m2": "b", "m3": "c g1/meal*3"},
        {"m1": "b", "m2": "a", "m3": "c"},
    )
    expedition = _read(frame, draft, [9_000, 9_000])
    assert swapped_between(expedition).tolist() == [[0, 4, 0], [4, 0, 0], [0, 0, 0]]
    assert held_by(expedition, 1, {0, 1}).sum() == 2
    deal_pairs(
        expedition,
        (0, 1),
        Work(),
        seconds=1.0,
        most=5,
        most_in_vain=5,
        columns=400,
        only_swapping=True,
    )
    assert count_swaps(expedition) == 0
    after = expedition.draft().carried
    kept = {key: n for key, n in draft.carried.items() if key[2] == "m3"}
    assert kept.items() <= after.items()


def test_room_is_counted_by_what_is_nearest_to_its_limit() -> None:
    """With limits as full as the fuller person is, that person has none; with more all have."""
    draft = draft_of(FRAME, {"m1": "a", "m2": "b c g1/meal*2"}, {"m1": "a", "m2": "b c"})
    tight = _read(FRAME, draft, trip_fractions(FRAME, draft))
    loose = _read(FRAME, draft, [10_000, 10_000])
    assert 0 < room_of(tight.trips[1]) < 0.5 < room_of(loose.trips[1]) < 1


def test_a_part_of_the_trips_leaves_out_units_that_ride_on_none_of_them() -> None:
    """Bags ride up only; trips that do not follow each other are linked by a swap of weight 1."""
    expedition = _read(FRAME, SWAPPED, [9_000, 9_000])
    part = expedition.part({1})
    assert {unit_id: list(its) for unit_id, its in part.pieces.items()} == {
        "a": [1],
        "b": [1],
        "c": [1],
    }
    assert "g1/meal" in expedition.pieces
    assert count_swaps(part) == 0
    assert (expedition.weight("a", 0, 1), expedition.weight("a", 0, 5)) == (2, 1)


def test_windows_repeat_themselves() -> None:
    """No clock and no chance takes part."""
    drafts = []
    for _ in range(2):
        expedition = _read(FRAME, SWAPPED, [9_000, 9_000])
        deal_window(expedition, _everything(expedition), Work(), seconds=1.0)
        drafts.append(expedition.draft())
    assert drafts[0] == drafts[1]


def test_a_trip_on_which_nothing_has_a_choice_asks_nothing() -> None:
    """Without free pieces there are no columns and no rows; so too in the bound over all trips."""
    frame = two_with(box("a", 3_000), item("o", owner_id="m1"))
    draft = draft_of(frame, {"m1": "m1/o a", "m2": "g1/meal*2"}, {"m1": "m1/o a"})
    expedition = _read(frame, draft, [9_000, 9_000])
    nothing = np.zeros(len(expedition.trips[1].load.where), dtype=bool)
    question = Question()
    asked = ask_loads(question, expedition.trips[1], nothing, None)
    ask_preferences(question, asked)
    ask_swaps(question, expedition, {1: asked})
    assert (asked.pieces, len(asked.of), asked.by_cargo()) == ({}, 0, {})
    assert answered(question, Run(1.0, steady=True)).values is None
    assert least_swaps(expedition, Work()) == 0
