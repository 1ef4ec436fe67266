"""Drafts by trip, their load fractions, and their way to a plan and back."""

from __future__ import annotations

from solver.checker import check
from solver.model.assignment.build_plan import build_plan
from solver.model.assignment.by_trip import by_trip, join, join_one, riding, riding_by_trip
from solver.model.assignment.draft import Draft
from solver.model.assignment.load_fractions import (
    better_of,
    hauler_of,
    peak_of,
    person_fractions,
    trip_fractions,
)
from solver.model.assignment.read_plan import read_plan
from solver.model.formulation.build_frame import build_frame
from solver.plan import Plan
from solver.problem import Sled
from tests.model.frames import box, draft_of, index_of, problem_of, two_with
from tests.rules.worlds import person, world

FRAME = two_with(box("a", 8_000), box("b", 4_000))
UP = {"m1": "a", "m2": "b g1/meal*2"}
DRAFT = draft_of(FRAME, UP, {"m1": "a", "m2": "b"})


def test_a_draft_taken_apart_by_trip_and_joined_is_the_same() -> None:
    """Trips apart and together again leave every unit with its carrier."""
    held = by_trip(FRAME, DRAFT)
    assert join(held) == DRAFT
    assert riding(held[0])[index_of(FRAME, "g1/meal")] == 2
    assert riding_by_trip(FRAME, DRAFT.rides()) == [riding(one) for one in held]
    assert join_one(1, held[1]).rides() == {(index_of(FRAME, name), 1): 1 for name in "ab"}


def test_fractions_are_of_the_fullest_person() -> None:
    """8 kg in a pack of 20 kg are 40 %, beside 4 kg and two bags of 10 g in another."""
    assert person_fractions(FRAME, DRAFT)[0] == {"m1": 4_000, "m2": 2_010}
    assert (trip_fractions(FRAME, DRAFT), peak_of(FRAME, DRAFT)) == ([4_000, 4_000], 4_000)


def test_of_two_drafts_the_lower_peak_is_better_and_then_the_smaller_sum() -> None:
    """A draft that is no better is not taken."""
    worse = draft_of(FRAME, {"m1": "a b g1/meal*2"}, {"m1": "a", "m2": "b"})
    assert better_of(FRAME, worse, DRAFT) is DRAFT
    assert better_of(FRAME, DRAFT, worse) is DRAFT
    same = Draft(dict(DRAFT.carried))
    assert better_of(FRAME, DRAFT, same) is DRAFT


def test_a_draft_becomes_a_plan_that_the_checker_passes_and_comes_back() -> None:
    """Built as a plan and read again, a draft is the same."""
    plan = build_plan(FRAME, DRAFT)
    assert check(problem_of(FRAME), plan).findings == ()
    assert read_plan(FRAME, plan) == DRAFT


def test_a_plan_with_a_detour_or_too_few_trips_is_no_draft() -> None:
    """What the frame does not allow cannot be read as a draft."""
    plan = build_plan(FRAME, DRAFT)
    assert read_plan(FRAME, Plan(plan.trips[1:], plan.stock)) is None
    back = build_plan(FRAME, draft_of(FRAME, UP, {"m1": "a", "m2": "b g1/meal"}))
    fewer = build_frame(world("strip-c1 c1-strip", people=(person("m1"),)))
    assert read_plan(fewer, back) is None


def test_a_sleds_load_counts_for_its_hauler() -> None:
    """A box on a sled of 2 kg under a sled cap of 10 kg makes the hauler's fraction."""
    sled = Sled("s1", "m1", tare_g=2_000, mass_limit_g=40_000, volume_ml=90_000)
    people = (person("m1", sled_g=10_000), person("m2"))
    problem = world(
        "strip-c1 c1-strip",
        people=people,
        gear=(box("a", 4_000),),
        sleds=(sled,),
        sled_leg_factors=(100, 100),
    )
    frame = build_frame(problem)
    assert hauler_of(frame) == {"sled/s1": "m1"}
    draft = draft_of(frame, {"sled/s1": "a", "m2": "g1/meal*2"}, {"sled/s1": "a"})
    assert person_fractions(frame, draft)[1] == {"m1": 6_000, "m2": 0}
