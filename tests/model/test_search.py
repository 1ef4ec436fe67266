"""How a search is steered: begun from a plan, stopped early, repeated exactly."""

from __future__ import annotations

import time
from itertools import count

import pytest

from solver.checker import check
from solver.model.assignment.load_fractions import peak_of
from solver.model.formulation.build_frame import build_frame
from solver.model.formulation.redundant_losses import without_redundant_losses
from solver.model.search import search
from solver.outcome import Limits, Solved
from solver.pipeline import plan
from solver.plan import Plan
from solver.problem import Problem
from solver.progress import Progress, Watch
from solver.rulebook.goals import goals_asked
from tests.benchmarks.instances import expedition, size_named
from tests.model.frames import box, draft_of, two_with
from tests.pipeline.tiny_worlds import tiny_world
from tests.rules.worlds import person
from tests.yardstick import yardstick_seconds


def solved(outcome: object) -> Solved:
    """The outcome, which must be a plan."""
    assert isinstance(outcome, Solved)
    return outcome


@pytest.fixture(scope="module")
def small() -> Problem:
    """A three-person expedition of twelve days."""
    return expedition(size_named("small"), 3)


@pytest.fixture(scope="module")
def by_hand(small: Problem) -> Solved:
    """What comes of a search that is told to stop before it begins."""
    watch = Watch(30.0, now=time.monotonic, wish_to_stop=lambda: True)
    return solved(plan(small, Limits(wall_seconds=30.0), watch))


@pytest.fixture(scope="module")
def best(small: Problem) -> Solved:
    """What comes of a search with time."""
    return solved(plan(small, Limits(wall_seconds=20.0, gap=10)))


def test_a_search_stopped_at_once_keeps_a_whole_plan(small: Problem, by_hand: Solved) -> None:
    """A stop leaves the best plan so far, and it keeps every rule."""
    assert check(small, by_hand.plan).findings == ()
    assert by_hand.goals[0].value <= (by_hand.greedy_peak or 0)


def test_time_is_kept_for_what_comes_after(small: Problem) -> None:
    """Three times what the greedy plan took, so that a busy machine ends a solve in its time."""
    seconds = count()
    watch = Watch(1000.0, now=lambda: float(next(seconds)))
    plan(small, Limits(), watch)
    (greedy,) = (took for stage, took in watch.stages if stage == "greedy")
    assert greedy > 0
    assert watch.kept_back >= 3 * greedy


def test_peaks_fall_and_bounds_rise_while_a_search_runs(small: Problem) -> None:
    """Progress tells peaks that never rise and bounds that never fall, peak above bound."""
    told: list[Progress] = []
    plan(small, Limits(gap=10), Watch(20.0, now=time.monotonic, tell=told.append))
    peaks = [progress.peak for progress in told if progress.peak is not None]
    bounds = [progress.bound for progress in told]
    assert peaks == sorted(peaks, reverse=True)
    assert bounds == sorted(bounds)
    assert all(p.peak is None or p.peak >= p.bound for p in told)
    assert len(set(peaks)) > 1


def test_a_search_begun_from_a_plan_is_never_worse(small: Problem, best: Solved) -> None:
    """With no time to search, the answer is the plan that it was given to begin from."""
    stopped = Watch(20.0, now=time.monotonic, wish_to_stop=lambda: True)
    again = solved(plan(small, Limits(), stopped, start=best.plan))
    assert again.goals[0].value <= best.goals[0].value
    assert check(small, again.plan).findings == ()


def test_a_plan_that_breaks_a_rule_is_no_start(small: Problem, best: Solved) -> None:
    """A plan with a trip's loads left out is not begun from, and not returned."""
    broken = Plan(best.plan.trips[1:], best.plan.stock)
    outcome = solved(plan(small, Limits(gap=10), start=broken))
    assert check(small, outcome.plan).findings == ()


def test_a_search_from_another_seed_never_loses_to_its_start() -> None:
    """Over tiny worlds, beginning from a proven plan with no time ends at its peak."""
    compared = 0
    for seed in range(40):
        problem = tiny_world(seed)
        first = plan(problem, Limits(wall_seconds=30.0, workers=1))
        if isinstance(first, Solved):
            stopped = Watch(30.0, now=time.monotonic, wish_to_stop=lambda: True)
            again = solved(plan(problem, Limits(seed=7), stopped, start=first.plan))
            assert again.goals[0].value == first.goals[0].value
            compared += 1
    assert compared > 10


def test_a_search_repeats_exactly(small: Problem) -> None:
    """Two solves give the same plan, unit for unit, and the same goals."""
    limits = Limits(wall_seconds=6.0, gap=10)
    one = solved(plan(small, limits, Watch(120.0, now=time.monotonic)))
    two = solved(plan(small, limits, Watch(120.0, now=time.monotonic)))
    assert one.plan == two.plan
    assert one.goals == two.goals


def test_a_result_without_a_draft_says_what_is_known() -> None:
    """Loads beyond all caps are infeasible; boxes that fit only when divided are so twice over."""
    heavy = two_with(box("a", 50_000))
    assert search(heavy, Limits(), Watch(20.0)).infeasible
    people = tuple(person(f"m{n}", pack_g=10_000) for n in (1, 2))
    whole = two_with(*(box(f"b{n}", 6_000) for n in range(3)), people=people)
    watch = Watch(20.0)
    result = search(whole, Limits(workers=1), watch)
    assert (result.draft, result.infeasible, result.goals) == (None, True, ())
    assert [stage for stage, _ in watch.stages][-1] == "confirm"


def test_every_step_and_goal_is_a_stage_and_the_peak_is_proven() -> None:
    """The stages are the steps, then the goals; one bag beside each box is the proven least."""
    frame = two_with(box("a", 5_000), box("b", 5_000))
    begin = draft_of(frame, {"m1": "a", "m2": "b g1/meal*2"}, {"m1": "a", "m2": "b"})
    watch = Watch(20.0)
    result = search(frame, Limits(workers=1), watch, begin)
    assert [stage for stage, _ in watch.stages] == [
        "greedy",
        "relaxation",
        "trip peaks",
        "packing",
        *(goal.goal_id.replace("_", " ") for goal in goals_asked(with_former=False)),
    ]
    assert result.draft is not None
    assert peak_of(frame, result.draft) == result.bound == 2_505 < peak_of(frame, begin)


@pytest.mark.parametrize("after_s", [0.3, 0.6, 0.9, 1.2, 2.0, 3.0])
def test_a_stop_takes_effect_within_half_a_second(after_s: float) -> None:
    """Whenever a search of a large expedition is told to stop, it ends half a second later.

    Only the greedy plan is waited for, without which there would be none. The clock is the
    process's own, and half a second is four yardsticks where one takes 125 ms: so neither a busy
    nor a slow machine counts.
    """
    pace = yardstick_seconds()
    frame = without_redundant_losses(build_frame(expedition(size_named("large"), 1)))
    clock = time.process_time
    begun = clock()
    watch = Watch(60.0, now=clock, wish_to_stop=lambda: clock() > begun + after_s)
    watch.start()
    result = search(frame, Limits(wall_seconds=60.0, workers=1, gap=10), watch)
    ended = clock() - begun
    greedy = next(seconds for stage, seconds in watch.stages if stage == "greedy")
    assert result.draft is not None
    assert ended < max(after_s, greedy) + 4 * min(pace, yardstick_seconds())
