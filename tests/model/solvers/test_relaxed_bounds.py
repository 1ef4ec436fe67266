"""The bounds of the relaxation on seeded worlds, against the model in one piece."""

from __future__ import annotations

import math

import pytest

from solver.model.formulation.build_frame import build_frame
from solver.model.formulation.redundant_losses import without_redundant_losses
from solver.model.goals.hard_days import hardness
from solver.model.run import Run
from solver.model.solvers.relaxation import (
    LIGHT_SLOPE,
    least_hardness_bound,
    least_mass_ascent,
    least_peak_bound,
    solve_relaxation,
)
from solver.model.solvers.relaxation_question import FEWEST_NODES, effort_of
from solver.model.solvers.relaxation_refusals import is_impossible
from solver.model.solvers.relaxation_rows import build_relaxation
from solver.model.solvers.solve_one_piece import least_peak
from solver.outcome import Limits, Solved
from solver.pipeline import plan
from solver.problem import Problem
from tests.benchmarks.instances import expedition, size_named
from tests.pipeline.glacier_worlds import glacier_world
from tests.pipeline.tiny_worlds import tiny_world
from tests.rules.test_pack_cap_held import CASES


@pytest.mark.parametrize("world", [tiny_world, glacier_world])
def test_no_bound_is_above_the_best_plan(world) -> None:
    """Over 25 worlds: divisible ≤ searched ≤ the proven peak; no plan, no false refusal."""
    compared = refused = 0
    for seed in range(25):
        problem: Problem = world(seed)
        frame = without_redundant_losses(build_frame(problem))
        best = least_peak(frame, Run(20.0, workers=1))
        relaxation = build_relaxation(frame, steady=True)
        if best.draft is None:
            assert best.infeasible
            refused += is_impossible(relaxation, seconds=5.0)
            continue
        assert not is_impossible(relaxation, seconds=5.0)
        assert best.proven
        divisible = least_peak_bound(relaxation, seconds=5.0)
        assert divisible is not None
        full = solve_relaxation(
            relaxation, seconds=5.0, gap=0.0, low_trips=False, peak_at_most=10_000, fully=True
        )
        assert full is not None
        assert divisible <= full.bound <= best.bound
        compared += 1
    assert compared > 10
    assert refused > 0


def test_relax_and_fix_keeps_its_distance_from_the_search_among_all_rides() -> None:
    """On small and medium: as hard as the searched bound at least, and at most 0.5 % more."""
    for size in ("small", "medium"):
        frame = without_redundant_losses(build_frame(expedition(size_named(size), 1)))
        relaxation = build_relaxation(frame, steady=True)
        peak = least_peak_bound(relaxation, seconds=5.0)
        assert peak is not None
        fixed = solve_relaxation(
            relaxation, seconds=5.0, gap=1e-4, low_trips=True, peak_at_most=peak
        )
        assert fixed is not None
        assert max(fixed.trip_fractions) <= peak
        low = least_hardness_bound(relaxation, seconds=5.0, peak_at_most=peak)
        high = least_hardness_bound(relaxation, seconds=5.0, peak_at_most=peak, fully=True)
        assert low is not None
        assert high is not None
        hard = sum(map(hardness, fixed.trip_fractions))
        assert math.ceil(low) <= math.ceil(high) <= hard <= high * 1.005 + 1
        ascent = least_mass_ascent(
            relaxation, seconds=5.0, trip_limits=list(fixed.trip_fractions), start=fixed.rides
        )
        assert ascent is not None


def test_the_same_question_asked_again_has_the_same_answer() -> None:
    """A relaxation asked for its rides twice, with other questions between, repeats itself."""
    frame = without_redundant_losses(build_frame(expedition(size_named("medium"), 2)))
    answers = []
    for _ in range(2):
        relaxation = build_relaxation(frame, steady=True)
        bound = least_peak_bound(relaxation, seconds=5.0)
        assert bound is not None
        answers.append(
            solve_relaxation(relaxation, seconds=5.0, gap=1e-4, low_trips=True, peak_at_most=bound)
        )
    assert answers[0] == answers[1]


def test_what_whole_units_add_to_a_sum_is_rounded_once() -> None:
    """Two settled trips that need 9,999.0001 each: 2 × 6,184 divided, 2 × 6,200 whole."""
    (case,) = (case for case in CASES if case.name == "below")
    frame = build_frame(case.problem)
    relaxation = build_relaxation(frame, steady=True)
    relaxed = solve_relaxation(
        relaxation, seconds=5.0, gap=0.0, low_trips=True, peak_at_most=10_000
    )
    assert relaxed is not None
    assert relaxed.bound == math.ceil(2 * (6_184 + 16 * 1e-4 + LIGHT_SLOPE * 9_999.0001))
    assert [round(fraction, 3) for fraction in relaxed.unrounded] == [9_999.0, 9_999.0]
    outcome = plan(case.problem, Limits(wall_seconds=30.0, workers=1))
    assert isinstance(outcome, Solved)
    fair = {goal.goal_id: goal for goal in outcome.goals}["hard_days"]
    assert (fair.value, fair.bound) == (12_400, 12_400)


def test_a_steady_question_counts_steps_that_fit_the_size() -> None:
    """A steady relaxation searches fewer nodes the more rows it has, and any other by the clock."""
    nodes = []
    for size in ("small", "medium"):
        frame = without_redundant_losses(build_frame(expedition(size_named(size), 1)))
        steady = effort_of(build_relaxation(frame, steady=True, seed=3), 2.0)
        assert steady.steps is not None
        assert (steady.seconds, steady.seed) == (2.0, 3)
        nodes.append(steady.steps[1])
        assert effort_of(build_relaxation(frame), 2.0).steps is None
    assert nodes[0] > nodes[1] >= FEWEST_NODES
