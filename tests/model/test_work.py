"""Work counted in steps, and how much a stage gets."""

from __future__ import annotations

from solver.model.work import STEPS_A_SECOND, Work, work_within
from solver.progress import Watch


def test_work_is_over_when_its_steps_are_spent_or_a_stop_is_wished() -> None:
    """Two of three steps leave one; the third ends it, and so does a wish at any time."""
    work = Work(most=3)
    work.spend(2)
    assert not work.is_over()
    work.spend(1)
    assert work.is_over()
    assert Work(should_stop=lambda: True).is_over()


def test_only_a_racing_loop_is_ended_by_the_clock() -> None:
    """A steady loop gets steps whatever the time; a racing one a tenth of the time on top."""
    clock = [5.0]
    steady = Watch(60.0, now=lambda: clock[0], steady_seconds=10.0)
    work = work_within(steady, steady_share=0.5, racing_share=0.1)
    assert work.most == 5 * STEPS_A_SECOND
    racing = work_within(Watch(60.0, now=lambda: clock[0]), steady_share=0.5, racing_share=0.1)
    clock[0] = 5.4
    assert (work.is_over(), racing.is_over()) == (False, False)
    clock[0] = 5.6
    assert (work.is_over(), racing.is_over()) == (False, True)
    clock[0] = 61.0
    assert work.is_over()
    assert steady.clock_ended


def test_a_share_is_of_what_is_left_and_leaves_the_rest():
    """Of ten steps with two spent, half are four; spending those leaves four to the whole."""
    whole = Work(10.0)
    whole.spend(2.0)
    half = whole.share(0.5)
    half.spend(4.0)
    assert half.is_over()
    whole.spend(half.spent)
    assert not whole.is_over()
    whole.spend(4.0)
    assert whole.is_over()
    assert whole.share(0.5).is_over()
