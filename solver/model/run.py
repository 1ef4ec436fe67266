"""How much time each part of a search gets, and how one run of CP-SAT is set up."""

from __future__ import annotations

from dataclasses import dataclass

from ortools.sat.python import cp_model

from solver.outcome import Limits
from solver.progress import Watch

_BOUND_SHARE = 0.05
"""Time for a bound on a later goal, as a share of what the search has taken so far [1]."""


@dataclass(frozen=True, slots=True)
class Run:
    """How one run of CP-SAT is set: time, workers, seed, and whether presolve is on.

    A `steady` run counts the solver's own deterministic time instead of wall time [s].
    """

    seconds: float
    workers: int = 1
    seed: int = 1
    presolve: bool = True
    steady: bool = False

    def solver(self) -> cp_model.CpSolver:
        """A solver with these settings."""
        solver = cp_model.CpSolver()
        if self.steady:
            solver.parameters.max_deterministic_time = max(self.seconds, 0.01)
        else:
            solver.parameters.max_time_in_seconds = max(self.seconds, 0.01)
        solver.parameters.num_workers = self.workers
        solver.parameters.random_seed = self.seed
        solver.parameters.cp_model_presolve = self.presolve
        return solver


def run_within(limits: Limits, seconds: float) -> Run:
    """A run of so much time under a solve's limits."""
    return Run(
        seconds,
        workers=1 if limits.reproducible else limits.workers,
        seed=limits.seed,
        steady=limits.reproducible,
    )


def bound_seconds(watch: Watch, share: float) -> float:
    """Time for a bound on a later goal: a share of what is left, in measure with the rest [s]."""
    return min(share * watch.left(), max(0.2, _BOUND_SHARE * watch.elapsed()))
