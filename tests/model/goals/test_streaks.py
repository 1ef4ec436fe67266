"""Who is heaviest for how long."""

from __future__ import annotations

from solver.model.formulation.build_frame import build_frame
from solver.model.goals.soft_constraint import violated
from solver.model.goals.soft_constraints import soft_constraints
from solver.model.goals.streak_repair import break_streaks
from solver.model.goals.streaks import Streak, long_streaks, next_highest, no_more_than
from solver.model.work import Work
from tests.model.frames import TWO, draft_of, index_of
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
    better = break_streaks(FRAME, ONE_SIDED, constraints, [3_050] * 4, Work())
    assert long_streaks(FRAME, better) == []
    assert better.rides() == ONE_SIDED.rides()
    stopped = break_streaks(FRAME, ONE_SIDED, constraints, [3_050] * 4, Work(most=0))
    assert stopped == ONE_SIDED
