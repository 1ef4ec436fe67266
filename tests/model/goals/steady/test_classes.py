"""Kinds of things dealt out again among all people on all trips."""

from __future__ import annotations

from solver.model.assignment.load_fractions import trip_fractions
from solver.model.formulation.build_frame import build_frame
from solver.model.goals.soft_constraints import soft_constraints
from solver.model.goals.steady.classes import deal_classes
from solver.model.goals.steady.costs import count_swaps
from solver.model.goals.steady.expedition import Expedition, read_expedition
from solver.model.work import Work
from tests.model.frames import box, draft_of
from tests.rules.worlds import person, world

THREE = tuple(person(f"m{n}") for n in (1, 2, 3))
FRAME = build_frame(
    world(
        "strip-c1 c1-strip", people=THREE, gear=tuple(box(name, 3_000) for name in ("a", "b", "c"))
    )
)
ROUND = draft_of(
    FRAME,
    {"m1": "a", "m2": "b", "m3": "c g1/meal*3"},
    {"m1": "b", "m2": "c", "m3": "a"},
)


def _read(limits: list[int]) -> Expedition:
    return read_expedition(FRAME, ROUND, soft_constraints(FRAME), limits)


def test_three_things_that_go_round_among_three_people_stay_with_one_each() -> None:
    """No two of them can undo that alone under these limits; three at once can."""
    expedition = _read(trip_fractions(FRAME, ROUND))
    assert count_swaps(expedition) == 6
    deal_classes(expedition, Work(), seconds=1.0, most=4)
    assert count_swaps(expedition) == 0
    draft = expedition.draft()
    assert draft.rides() == ROUND.rides()
    assert trip_fractions(FRAME, draft) == trip_fractions(FRAME, ROUND)


def test_nothing_is_dealt_out_without_work() -> None:
    """With no work left, and with no window allowed, the loads stay as they are."""
    for work, most in ((Work(most=0), 4), (Work(), 0)):
        expedition = _read(trip_fractions(FRAME, ROUND))
        deal_classes(expedition, work, seconds=1.0, most=most)
        assert expedition.draft() == ROUND
