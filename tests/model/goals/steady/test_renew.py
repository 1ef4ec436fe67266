"""Units taken out and dealt out again: fewer swaps, no limit passed, the same every time."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import pytest

from solver.model.assignment.draft import Draft
from solver.model.assignment.load_fractions import trip_fractions
from solver.model.formulation.build_frame import build_frame
from solver.model.formulation.frame import Frame
from solver.model.goals.preferences import count_violated
from solver.model.goals.soft_constraints import soft_constraints
from solver.model.goals.steady.costs import count_swaps, is_over_limit
from solver.model.goals.steady.expedition import Expedition, read_expedition
from solver.model.goals.steady.renew import renew
from solver.model.goals.swap_counts import weighted_swaps
from solver.model.work import Work
from solver.problem import Need, NeedKind
from tests.model.frames import box, draft_of, problem_of, two_with
from tests.rules.worlds import asked_alone, item

FRAME = two_with(box("a", 3_000), box("b", 3_000), box("c", 2_000))
UP = {"m1": "a c", "m2": "b g1/meal*2"}
SWAPPED = draft_of(FRAME, UP, {"m1": "b", "m2": "a c"})


def _read(frame: Frame, draft: Draft, limits: list[int]) -> Expedition:
    return read_expedition(frame, draft, soft_constraints(frame), limits)


def test_what_changed_hands_over_night_stays_where_there_is_room() -> None:
    """Three single boxes changed hands, six in all; with room each stays with one person."""
    expedition = _read(FRAME, SWAPPED, [9_000, 9_000])
    assert count_swaps(expedition) == 6
    assert renew(expedition, 5, Work()) >= 1
    assert count_swaps(expedition) == 0
    assert expedition.draft().rides() == SWAPPED.rides()
    assert renew(expedition, 5, Work()) == 0


def test_nothing_happens_without_work_to_do() -> None:
    """No work is left before the first step."""
    expedition = _read(FRAME, SWAPPED, [9_000, 9_000])
    assert renew(expedition, 5, Work(most=0)) == 0
    assert expedition.draft() == SWAPPED


def _least_swaps(limits: list[int]) -> int:
    """Of all ways to share out the boxes under the limits, the fewest weighted swaps."""
    least = []
    for up, down in product(product(("m1", "m2"), repeat=3), repeat=2):
        trips: list[dict[str, str]] = [{}, {}]
        for trip, whose in enumerate((up, down)):
            for name, who in zip("abc", whose, strict=True):
                trips[trip][who] = f"{trips[trip].get(who, '')} {name}".strip()
        trips[0]["m2"] = f"{trips[0].get('m2', '')} g1/meal*2".strip()
        draft = draft_of(FRAME, *trips)
        fits = zip(trip_fractions(FRAME, draft), limits, strict=True)
        if all(fraction <= limit for fraction, limit in fits):
            least.append(weighted_swaps(FRAME, draft))
    return min(least)


@pytest.mark.parametrize("room", [0, 200, 1_000, 5_000])
def test_no_fewer_swaps_are_missed_on_a_tiny_world_and_no_limit_is_passed(room: int) -> None:
    """Against every way of sharing out three boxes, from no room at all to plenty."""
    limits = [fraction + room for fraction in trip_fractions(FRAME, SWAPPED)]
    expedition = _read(FRAME, SWAPPED, limits)
    renew(expedition, 20, Work())
    assert not any(map(is_over_limit, expedition.trips))
    assert count_swaps(expedition) == _least_swaps(limits)


def test_steps_repeat_themselves() -> None:
    """No clock and no chance takes part."""
    one, two = (_read(FRAME, SWAPPED, [9_000, 9_000]) for _ in range(2))
    for expedition in (one, two):
        renew(expedition, 3, Work())
    assert one.draft() == two.draft()


def test_a_bundle_that_changes_hands_comes_to_one_person() -> None:
    """Four pickets, two with each, all change hands over night; then one person has all four."""
    pickets = item("picket", Need(NeedKind.AT_PLACE, up_to="c1"), mass_g=400, count=4)
    frame = two_with(pickets, box("a", 3_000))
    draft = draft_of(
        frame, {"m1": "picket*4 a", "m2": "g1/meal*2"}, {"m1": "picket a", "m2": "picket*3"}
    )
    expedition = _read(frame, draft, [9_000, 9_000])
    assert expedition.bundles == {"picket"}
    renew(expedition, 3, Work())
    on_trips = expedition.pieces["picket"]
    assert [sorted(expedition.held_by("picket", trip)) for trip in on_trips] == [[0, 4], [0, 4]]


def test_a_keeper_by_name_gets_the_thing_back() -> None:
    """The box of m2 rides down with m1, a broken preference; there is room, so it goes over."""
    named = problem_of(two_with(replace(box("a", 3_000), keeper_id="m2"), box("b", 3_000)))
    frame = build_frame(asked_alone(named, "keeper_has_it"))
    draft = draft_of(frame, {"m2": "a", "m1": "b g1/meal*2"}, {"m1": "a b"})
    expedition = _read(frame, draft, [9_000, 9_000])
    renew(expedition, 4, Work())
    assert count_violated(frame, expedition.draft(), soft_constraints(frame)) == 0
    assert weighted_swaps(frame, expedition.draft()) == 0
