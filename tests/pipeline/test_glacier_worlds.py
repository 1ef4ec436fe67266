"""The rules of glaciers in the pipeline, against exhaustive search on tiny worlds.

    python -m tests.pipeline.test_glacier_worlds 0 2000

asks more of them than the suite does and prints each that disagrees.
"""

from __future__ import annotations

import sys

import pytest

from solver.checker import check
from solver.errors import WithheldPlanError
from solver.outcome import Infeasible, Limits, Solved
from solver.pipeline import plan
from solver.problem.faults import find_faults
from tests.pipeline.conservation import imbalances
from tests.pipeline.glacier_search import least_glacier_peak
from tests.pipeline.glacier_worlds import PLAN_RULES, glacier_world

WORLDS = 240
CHUNK = 40
STEADY = Limits(wall_seconds=60.0, workers=1, seed=1)


def disagreement(seed: int) -> str | None:
    """What speaks against the pipeline on the world of a seed, None where nothing does."""
    problem = glacier_world(seed)
    expected = least_glacier_peak(problem)
    try:
        outcome = plan(problem, STEADY)
    except WithheldPlanError as error:
        return f"world {seed}: {error}"
    match outcome:
        case Infeasible():
            if expected is not None:
                return f"world {seed}: called infeasible, least peak is {expected}"
        case Solved():
            peak = outcome.goals[0]
            if (peak.goal_id, peak.value, peak.proven) != ("peak_load", expected, True):
                return f"world {seed}: {peak}, least peak is {expected}"
            if findings := check(problem, outcome.plan).findings:
                return f"world {seed}: {findings[0]}"
            if sums := imbalances(problem, outcome.plan):
                return f"world {seed}: {sums[0]}"
        case _:
            return f"world {seed}: {type(outcome).__name__}, least peak is {expected}"
    return None


@pytest.mark.parametrize("first", range(0, WORLDS, CHUNK))
def test_optimum_equals_exhaustive_search_on_glaciers(first: int) -> None:
    """With the rules of loss, camps, caches and limits the peak is the least of all."""
    assert [told for seed in range(first, first + CHUNK) if (told := disagreement(seed))] == []


def test_glacier_worlds_are_problems_without_faults_that_ask_each_rule() -> None:
    """Every glacier world may be asked, and each rule on plans is asked of at least thirty."""
    worlds = [glacier_world(seed) for seed in range(WORLDS)]
    assert [seed for seed, world in enumerate(worlds) if find_faults(world)] == []
    for rule_id in PLAN_RULES:
        assert sum(world.asks(rule_id) for world in worlds) >= 30, rule_id


def main(first: int, last: int) -> int:
    """Ask the worlds of a range of seeds; 1 where any disagrees."""
    told = 0
    for seed in range(first, last):
        line = disagreement(seed)
        if line is not None:
            told += 1
            sys.stdout.write(f"{line}\n")
            sys.stdout.flush()
    sys.stdout.write(f"{last - first} glacier worlds, {told} disagreements\n")
    return 1 if told else 0


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]), int(sys.argv[2])))
