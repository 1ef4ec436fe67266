"""How a search is steered: begun from a plan, stopped early, repeated exactly."""

from __future__ import annotations

import time

import pytest

from solver.checker import check
from solver.outcome import Limits, Solved
from solver.pipeline import plan
from solver.plan import Plan
from solver.problem import Problem
from solver.progress import Progress, Watch
from tests.benchmarks.instances import expedition, size_named
from tests.pipeline.tiny_worlds import tiny_world


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
    watch = Watch(30.0, now=time.monotonic, should_stop=lambda: True)
    return solved(plan(small, Limits(wall_seconds=30.0), watch))


@pytest.fixture(scope="module")
def best(small: Problem) -> Solved:
    """What comes of a search with time."""
    return solved(plan(small, Limits(wall_seconds=20.0, gap=10)))


def test_a_search_stopped_at_once_keeps_a_whole_plan(small: Problem, by_hand: Solved) -> None:
    """A stop leaves the best plan so far, and it keeps every rule."""
    assert check(small, by_hand.plan).findings == ()
    assert by_hand.goals[0].value <= (by_hand.greedy_peak or 0)


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
    stopped = Watch(20.0, now=time.monotonic, should_stop=lambda: True)
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
            stopped = Watch(30.0, now=time.monotonic, should_stop=lambda: True)
            again = solved(plan(problem, Limits(seed=7), stopped, start=first.plan))
            assert again.goals[0].value == first.goals[0].value
            compared += 1
    assert compared > 10


def test_a_reproducible_search_repeats_exactly(small: Problem) -> None:
    """Two reproducible solves give the same plan, unit for unit, and the same goals."""
    limits = Limits(wall_seconds=6.0, gap=10, reproducible=True)
    one = solved(plan(small, limits, Watch(6.0, now=time.monotonic)))
    two = solved(plan(small, limits, Watch(6.0, now=time.monotonic)))
    assert one.plan == two.plan
    assert one.goals == two.goals
