"""Who is heaviest for how long, and who hands over what."""

from __future__ import annotations

from collections import Counter

from solver.model.assignment.load_fractions import trip_fractions
from solver.model.formulation.build_frame import build_frame
from solver.model.formulation.spread_slack import spread_slack
from solver.model.goals import hand_overs
from solver.model.goals.hand_overs import keep_carriers
from solver.model.goals.pack_as_before import pack_as_before
from solver.model.goals.soft_constraint import violated
from solver.model.goals.soft_constraints import soft_constraints
from solver.model.goals.streak_repair import break_streaks
from solver.model.goals.streaks import Streak, long_streaks, next_highest, no_more_than
from solver.progress import Watch
from tests.model.frames import TWO, box, draft_of, index_of, two_with
from tests.rules.worlds import item, world

DAYS = "strip-c1 c1-c2 c2-c1-strip"
GEAR = (item("big", mass_g=6_000), item("small", mass_g=4_000))
FRAME = build_frame(world(DAYS, people=TWO, gear=GEAR))
ONE_SIDED = draft_of(
    FRAME,
    {"m1": "big", "m2": "small g1/meal*4"},
    {"m1": "big", "m2": "small g1/meal*2"},
    *[{"m1": "big", "m2": "small"}] * 2,
)


def test_three_days_as_the_heaviest_are_a_streak_too_long() -> None:
    """m1 has the 6 kg on each of three travel days; the other's highest is 20 % of the cap."""
    assert long_streaks(FRAME, ONE_SIDED) == [Streak("m1", (1, 2, 3))]
    assert next_highest(FRAME, ONE_SIDED, 3, "m1") == 20


def test_a_constraint_holds_a_person_to_a_whole_per_cent() -> None:
    """6 kg of 20 kg are 30 %: no more than 30 holds, no more than 29 does not."""
    held = {(index_of(FRAME, "big"), "m1"): 1}
    for percent, number in ((30, 0), (29, 1)):
        constraint = no_more_than(FRAME, 0, "m1", percent)
        assert violated(FRAME, 0, held, [constraint]) == number


def test_a_streak_is_broken_by_changing_places_on_one_day() -> None:
    """With room up to 30 % on every trip somebody else is heaviest on one of the days."""
    constraints = soft_constraints(FRAME)
    better = break_streaks(FRAME, ONE_SIDED, constraints, [3_050] * 4, lambda: False)
    assert long_streaks(FRAME, better) == []
    assert better.rides() == ONE_SIDED.rides()
    stopped = break_streaks(FRAME, ONE_SIDED, constraints, [3_050] * 4, lambda: True)
    assert stopped == ONE_SIDED


def test_hand_overs_count_units_that_change_their_person() -> None:
    """Two boxes that change places each time are two hand-overs; own day kit counts never."""
    gear = (box("a", 3_000), box("b", 3_000), item("o", owner_id="m1"))
    frame = two_with(*gear)
    swapped = draft_of(frame, {"m1": "a m1/o", "m2": "b g1/meal*2"}, {"m1": "b m1/o", "m2": "a"})
    kept = draft_of(frame, {"m1": "a m1/o", "m2": "b g1/meal*2"}, {"m1": "a m1/o", "m2": "b"})
    assert (hand_overs.value(frame, swapped), hand_overs.value(frame, kept)) == (2, 0)
    limits = trip_fractions(frame, swapped)
    better = keep_carriers(frame, swapped, soft_constraints(frame), limits=limits, watch=Watch(5.0))
    assert hand_overs.value(frame, better) == 0
    assert trip_fractions(frame, better) == limits


def test_a_trip_is_packed_as_before_as_far_as_its_limit_allows() -> None:
    """Boxes go back to whom they were with, or the trip stays as it was under a lower limit."""
    frame = two_with(box("a", 3_000), box("b", 3_000))
    held = {(index_of(frame, "a"), "m2"): 1, (index_of(frame, "b"), "m1"): 1}
    rides = {(cargo, 1): n for (cargo, _), n in held.items()}
    slack = spread_slack(frame, rides)[1]
    riders = {unit: Counter({"m1": 1}) for unit in "ab"}
    args = {"slack": slack, "watch": Watch(5.0)}
    both = pack_as_before(frame, 1, held, riders, (), limit=3_000, **args)
    assert both == {(index_of(frame, name), "m1"): 1 for name in "ab"}
    low = pack_as_before(frame, 1, held, riders, (), limit=1_500, **args)
    assert sorted(who for _, who in low) == ["m1", "m2"]
