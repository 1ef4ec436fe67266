"""The models that ours is raced against ask the same question: their optima are ours."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from ortools.math_opt.python import mathopt

from solver.model.formulation.build_frame import build_frame
from solver.outcome import Limits, Solved
from solver.pipeline import plan
from solver.problem import Problem, read_timeline
from tests.benchmarks.instances import expedition, size_named
from tests.benchmarks.one_piece_mip import write_one_piece
from tests.benchmarks.race_models import CpSatModel, MipModel, RaceModel, Replay
from tests.benchmarks.race_solving import read_highs_line, read_scip_line, solve_cp_sat, solve_mip
from tests.benchmarks.textbook import write_textbook
from tests.pipeline.tiny_worlds import tiny_world

# In the last four the least peak turns on party kit, a sled's volume and a sled's own limit.
SEEDS = (*range(36), 55, 82, 275, 291)
CHUNK = 10
Write = Callable[[RaceModel], bool]


def silent(at_s: float, peak: int | None, bound: int | None) -> None:
    """Tell nobody."""


def textbook(problem: Problem) -> Write:
    """How the textbook model of a problem is written."""
    return lambda model: write_textbook(problem, model)


def one_piece(problem: Problem) -> Write:
    """How the carrier model in one piece of a problem is written."""
    frame = build_frame(problem)
    return lambda model: write_one_piece(frame, model) is not None


def least_peak(write: Write, solver: mathopt.SolverType | None) -> int | None:
    """The least peak of a model, its plan replayed by its own rows; None without a plan."""
    model = CpSatModel() if solver is None else MipModel()
    if not write(model) or model.impossible:
        return None
    if isinstance(model, CpSatModel):
        solution = solve_cp_sat(model, 60.0, silent)
    else:
        solution = solve_mip(model, solver, 60.0, silent)
    assert solution.proven or solution.infeasible
    if solution.values is None:
        return None
    replay = Replay(solution.values)
    write(replay)
    assert replay.broken == 0
    assert next(replay.values, None) is None
    return replay.peak


def ours(problem: Problem) -> int | None:
    """The least peak by the pipeline, proven; None without a plan."""
    outcome = plan(problem, Limits(wall_seconds=60.0, workers=1))
    if not isinstance(outcome, Solved):
        return None
    assert outcome.goals[0].proven
    return outcome.goals[0].value


@pytest.mark.parametrize("first", range(0, len(SEEDS), CHUNK))
def test_textbook_and_one_piece_have_our_optimum(first: int) -> None:
    """The textbook model on CP-SAT and the one-piece model on HiGHS and SCIP agree with ours."""
    different = []
    for seed in SEEDS[first : first + CHUNK]:
        problem = tiny_world(seed)
        expected = ours(problem)
        found = (
            least_peak(textbook(problem), None),
            least_peak(one_piece(problem), mathopt.SolverType.HIGHS),
            least_peak(one_piece(problem), mathopt.SolverType.GSCIP),
        )
        if set(found) != {expected}:
            different.append(f"world {seed}: {expected} by ours, {found}")
    assert different == []


@pytest.mark.parametrize(
    "solver", [mathopt.SolverType.HIGHS, mathopt.SolverType.GSCIP], ids=["highs", "scip"]
)
def test_textbook_has_our_optimum_as_a_mip(solver: mathopt.SolverType) -> None:
    """The textbook model on a MIP solver agrees with CP-SAT, in kg and fractions of a cap."""
    for seed in range(6):
        write = textbook(tiny_world(seed))
        assert least_peak(write, solver) == least_peak(write, None), seed


def test_tiny_worlds_of_this_test_are_of_both_sorts() -> None:
    """Some of the worlds compared have a plan and some have none, so both answers are tried."""
    without = [seed for seed in SEEDS if least_peak(textbook(tiny_world(seed)), None) is None]
    assert 0 < len(without) < len(SEEDS)


def test_replay_counts_rows_that_are_broken() -> None:
    """A solution put through the rows of another question breaks some of them."""
    problem = tiny_world(next(s for s in SEEDS if least_peak(textbook(tiny_world(s)), None)))
    model = CpSatModel()
    write_textbook(problem, model)
    replay = Replay([0] * len(model.wholes))
    write_textbook(problem, replay)
    assert replay.broken > 0


def test_textbook_has_a_number_for_each_class_trip_and_carrier() -> None:
    """Nothing is simplified: a shared thing may ride any trip with anybody who makes it."""
    problem, model = expedition(size_named("small"), 1), CpSatModel()
    assert write_textbook(problem, model)
    shared = sum(1 for item in problem.gear if item.owner_id is None)
    packs = sum(len(trip.person_ids) for trip in read_timeline(problem).trips)
    assert len(model.wholes) > shared * packs


def test_log_lines_of_highs_are_read() -> None:
    """Bound and best solution stand behind the explored share; heads and inf are no numbers."""
    row = " R       0       0         0   0.00%   0.582755556     0.808333333        6.25%  0  0  0"
    assert read_highs_line(row) == (8084, 5828)
    row = "         0       0         0   0.00%   0.5      inf     inf   0  0  0"
    assert read_highs_line(row) == (None, 5000)
    head = "Src  Proc. InQueue |  Leaves   Expl. | BestBound       BestSol              Gap |"
    assert read_highs_line(head) == (None, None)


def test_log_lines_of_scip_are_read() -> None:
    """Dual and primal bound are the last columns but two; heads and dashes are no numbers."""
    row = (
        "r 0.0s|     1 |     0 |   232 |     - |shifting|   0 | 301 |  65 |  65 |   0 |  0 |   3 |"
        "   0 | 7.582756e-01 | 7.941800e-01 |   4.74%| unknown"
    )
    assert read_scip_line(row) == (7942, 7583)
    assert read_scip_line(row.replace("7.941800e-01", "     --     ")) == (None, 7583)
    head = " time | node  | left  |LP iter|LP it/n|mem/heur|mdpt |vars |cons |rows |cuts |sepa"
    assert read_scip_line(head) == (None, None)
