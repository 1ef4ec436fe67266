"""How hard trips are and what is proven of it, against exhaustive search on tiny worlds."""

from __future__ import annotations

from solver.outcome import Limits, Solved
from solver.pipeline import plan
from tests.pipeline.least_hardness import least_hardness
from tests.pipeline.tiny_worlds import tiny_world

SEEDS = range(60)


def test_no_plan_is_less_hard_than_the_bound_and_most_are_the_least() -> None:
    """Over tiny worlds: bound ≤ least of all ≤ the plan's value, which is the least in most."""
    hard = met = 0
    for seed in SEEDS:
        problem = tiny_world(seed)
        outcome = plan(problem, Limits(wall_seconds=60.0))
        if not isinstance(outcome, Solved) or outcome.peak.value <= 9_000:
            continue
        goal = {one.goal_id: one for one in outcome.goals}["hard_days"]
        least = least_hardness(problem, outcome.peak.value)
        assert least is not None
        assert (goal.bound or 0) <= least <= goal.value
        hard += 1
        met += least == goal.value
    assert hard >= 5
    assert met >= 0.9 * hard
