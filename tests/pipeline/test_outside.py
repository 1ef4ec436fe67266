"""Least peaks that were known before there was this solver: makespans and bin packings."""

from __future__ import annotations

from pathlib import Path

import pytest

from solver.outcome import Infeasible, Limits, Solved
from solver.pipeline import plan
from tests.pipeline.bin_packing import triplet_instances, uniform_instances
from tests.pipeline.one_leg import one_leg

STEADY = Limits(wall_seconds=60.0, workers=1, seed=1)
ANY_PLAN = Limits(wall_seconds=30.0, workers=1, seed=1, gap=1_000)
"""Whether there is a plan at all is asked, so a peak within a tenth of its bound will do."""


def graham_pieces(machines: int) -> list[int]:
    """Lengths 2m−1, 2m−1, 2m−2, 2m−2, …, m+1, m+1, m, m, m for m machines."""
    twice = [length for length in range(2 * machines - 1, machines, -1) for _ in range(2)]
    return [*twice, machines, machines, machines]


@pytest.mark.parametrize("people", range(2, 9))
def test_least_peak_and_greedy_floor_meet_grahams_worst_case(people: int) -> None:
    """With Graham's pieces the least peak is 3m, and longest first ends at 4m−1.

    R. L. Graham, "Bounds on multiprocessing timing anomalies", SIAM J. Appl. Math. 17 (1969),
    doi:10.1137/0117039, the case that attains the bound 4/3 − 1/(3m). One unit of length is
    100 g and a cap 10 kg, so that a unit is 100 steps of 1/10,000.
    """
    masses_g = [100 * length for length in graham_pieces(people)]
    solved = plan(one_leg(masses_g, people=people, cap_g=10_000), STEADY)
    assert isinstance(solved, Solved)
    peak = solved.goals[0]
    assert (peak.goal_id, peak.value, peak.proven) == ("peak_load", 100 * 3 * people, True)
    assert solved.greedy_peak == 100 * (4 * people - 1)


@pytest.mark.parametrize("number", [0, 7, 8])
def test_a_party_of_as_many_as_there_are_bins_carries_the_pieces(
    outside_data: Path, number: int
) -> None:
    """A party as large as the known least number of bins has a plan, one fewer has none."""
    instance = uniform_instances(outside_data)[number]
    for people, expected in ((instance.bins, Solved), (instance.bins - 1, Infeasible)):
        problem = one_leg(instance.sizes, people=people, cap_g=instance.capacity)
        assert isinstance(plan(problem, ANY_PLAN), expected)


def test_triplets_do_not_fit_fewer_people_than_packs_they_fill(outside_data: Path) -> None:
    """Falkenauer’s triplets total 40 full bins, so 39 people have no plan."""
    for instance in triplet_instances(outside_data):
        assert sum(instance.sizes) == 40 * instance.capacity
        outcome = plan(
            one_leg(instance.sizes, people=39, cap_g=instance.capacity),
            ANY_PLAN,
        )
        assert isinstance(outcome, Infeasible)
