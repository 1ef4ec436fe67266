"""The peak that the pipeline proves least, against exhaustive search on tiny worlds."""

from __future__ import annotations

import pytest

from solver.checker import check
from solver.errors import WithheldPlanError
from solver.outcome import Infeasible, Limits, Solved
from solver.pipeline import plan
from solver.problem.faults import find_faults
from tests.pipeline.conservation import imbalances
from tests.pipeline.exhaustive import least_peak
from tests.pipeline.tiny_worlds import tiny_world

WORLDS = 2_000
CHUNK = 100
STEADY = Limits(wall_seconds=60.0, workers=1, seed=1)


def disagreements(seeds: range) -> list[str]:
    """What speaks against the pipeline on the worlds of some seeds, one line for each."""
    found = []
    for seed in seeds:
        problem = tiny_world(seed)
        expected = least_peak(problem)
        try:
            outcome = plan(problem, STEADY)
        except WithheldPlanError as error:
            found.append(f"world {seed}: {error}")
            continue
        match outcome:
            case Infeasible():
                if expected is not None:
                    found.append(f"world {seed}: called infeasible, least peak is {expected}")
            case Solved():
                peak = outcome.goals[0]
                if (peak.goal_id, peak.value, peak.proven) != ("peak_load", expected, True):
                    found.append(f"world {seed}: {peak}, least peak is {expected}")
                if findings := check(problem, outcome.plan).findings:
                    found.append(f"world {seed}: {findings[0]}")
                if sums := imbalances(problem, outcome.plan):
                    found.append(f"world {seed}: {sums[0]}")
            case _:
                found.append(f"world {seed}: {type(outcome).__name__}, least peak is {expected}")
    return found


@pytest.mark.parametrize("first", range(0, WORLDS, CHUNK))
def test_optimum_equals_exhaustive_search(first: int) -> None:
    """The peak is the least of all, infeasible means that there is none, every plan adds up."""
    assert disagreements(range(first, first + CHUNK)) == []


@pytest.mark.parametrize("first", range(0, WORLDS, 1_000))
def test_tiny_worlds_are_problems_without_faults(first: int) -> None:
    """Every tiny world is a question that may be asked, so that an answer is owed."""
    for seed in range(first, first + 1_000):
        assert find_faults(tiny_world(seed)) == (), seed
