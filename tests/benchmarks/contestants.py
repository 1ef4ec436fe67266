"""Who races: ours, and three solvers on two models of the same problem.

Each contestant is a function that solves a problem within some seconds, telling better plans
and bounds as it finds them, and says how it ended. Ours is timed from the problem to the
plan; for the others the clock starts when their model is written, so that how fast this
language writes models down counts for nothing. The time for writing is told apart.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass

from ortools.math_opt.python import mathopt

from solver.checker import check
from solver.model import solve
from solver.model.assignment.build_plan import build_plan
from solver.model.assignment.draft import Draft
from solver.model.formulation.build_frame import build_frame
from solver.model.formulation.frame import Frame
from solver.model.solvers.one_piece import build_one_piece
from solver.model.solvers.solve_one_piece import read_draft
from solver.outcome import Infeasible, Limits, Solved
from solver.problem import Problem
from solver.progress import Progress, Watch
from tests.benchmarks.one_piece_mip import read_mip_draft, write_one_piece
from tests.benchmarks.race_models import CpSatModel, MipModel, RaceModel, Replay
from tests.benchmarks.race_solving import (
    WORKERS,
    Solution,
    Tell,
    run_cp_sat,
    solve_cp_sat,
    solve_mip,
)
from tests.benchmarks.textbook import write_textbook


@dataclass(frozen=True)
class Ending:
    """How a contestant ended: in a word, and what its last plan came to when replayed.

    `breaches` counts rules or rows that the plan breaks; None where there was no plan.
    """

    word: str
    peak: int | None = None
    breaches: int | None = None
    build_s: float = 0.0
    variables: int = 0


Contestant = Callable[[Problem, float, int, Tell], Ending]
"""Takes a problem, seconds, the gap to stop at [1/10,000] (ours only) and where to tell."""


def ours(problem: Problem, seconds: float, gap: int, tell: Tell) -> Ending:
    """The decomposition; its plan goes through the checker, after the clock has stopped."""

    def hear(progress: Progress) -> None:
        tell(progress.seconds, progress.peak, progress.bound or None)

    watch = Watch(seconds, now=time.monotonic, tell=hear)
    outcome = solve(problem, Limits(seconds, workers=WORKERS, gap=gap), watch)
    took = watch.elapsed()
    if not isinstance(outcome, Solved):
        return Ending("infeasible" if isinstance(outcome, Infeasible) else "no plan")
    peak = outcome.goals[0]
    tell(took, peak.value, peak.bound)
    report = check(problem, outcome.plan)
    return Ending(
        "proven" if peak.proven else "plan",
        dict(report.goals)["peak_load"],
        len(report.findings),
        variables=outcome.record.variables,
    )


def _word(solution: Solution) -> str:
    if solution.values is None:
        return "infeasible" if solution.infeasible else "no plan"
    return "proven" if solution.proven else "plan"


def _race(
    write: Callable[[RaceModel], bool],
    solver: mathopt.SolverType | None,
    seconds: float,
    tell: Tell,
) -> tuple[Solution, float, int]:
    """Write a model down and solve it: with CP-SAT when no MIP solver is named."""
    begun = time.monotonic()
    model: CpSatModel | MipModel = CpSatModel() if solver is None else MipModel()
    possible = write(model) and not model.impossible
    build_s = time.monotonic() - begun
    if not possible:
        return Solution(proven=False, infeasible=True), build_s, len(model.wholes)
    if isinstance(model, CpSatModel):
        solution = solve_cp_sat(model, seconds, tell)
    else:
        solution = solve_mip(model, solver, seconds, tell)
    return solution, build_s, len(model.wholes)


def textbook(solver: mathopt.SolverType | None) -> Contestant:
    """The textbook model; its solution is put through its own rows in whole numbers."""

    def run(problem: Problem, seconds: float, _: int, tell: Tell) -> Ending:
        def write(model: RaceModel) -> bool:
            return write_textbook(problem, model)

        solution, build_s, variables = _race(write, solver, seconds, tell)
        if solution.values is None:
            return Ending(_word(solution), build_s=build_s, variables=variables)
        replay = Replay(solution.values)
        write(replay)
        return Ending(_word(solution), replay.peak, replay.broken, build_s, variables)

    return run


def one_piece_mip(solver: mathopt.SolverType) -> Contestant:
    """The carrier model in one piece on a MIP solver; its plan goes through the checker."""

    def run(problem: Problem, seconds: float, _: int, tell: Tell) -> Ending:
        begun = time.monotonic()
        frame = build_frame(problem)
        frame_s = time.monotonic() - begun
        solution, build_s, variables = _race(
            lambda model: write_one_piece(frame, model) is not None, solver, seconds, tell
        )
        build_s += frame_s
        if solution.values is None:
            return Ending(_word(solution), build_s=build_s, variables=variables)
        draft = read_mip_draft(frame, solution.values)
        return _checked(_word(solution), frame, draft, build_s, variables)

    return run


def one_piece_cp_sat(problem: Problem, seconds: float, _: int, tell: Tell) -> Ending:
    """The carrier model in one piece on CP-SAT; its plan goes through the checker."""
    begun = time.monotonic()
    frame = build_frame(problem)
    piece = build_one_piece(frame)
    piece.model.minimize(piece.peak)
    build_s = time.monotonic() - begun
    variables = len(piece.model.proto.variables)
    if piece.impossible is not None:
        return Ending("infeasible", build_s=build_s, variables=variables)
    run = run_cp_sat(piece.model, seconds, tell)
    if not run.found:
        word = "infeasible" if run.infeasible else "no plan"
        return Ending(word, build_s=build_s, variables=variables)
    draft = read_draft(piece, run.solver)
    return _checked("proven" if run.proven else "plan", frame, draft, build_s, variables)


def _checked(word: str, frame: Frame, draft: Draft, build_s: float, variables: int) -> Ending:
    report = check(frame.world.problem, build_plan(frame, draft))
    peak = dict(report.goals)["peak_load"]
    return Ending(word, peak, len(report.findings), build_s, variables)


CONTESTANTS: dict[str, Contestant] = {
    "ours": ours,
    "textbook-cp-sat": textbook(None),
    "textbook-highs": textbook(mathopt.SolverType.HIGHS),
    "textbook-scip": textbook(mathopt.SolverType.GSCIP),
    "one-piece-cp-sat": one_piece_cp_sat,
    "one-piece-highs": one_piece_mip(mathopt.SolverType.HIGHS),
    "one-piece-scip": one_piece_mip(mathopt.SolverType.GSCIP),
}
