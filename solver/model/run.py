"""How one run of CP-SAT is set up."""

from __future__ import annotations

from dataclasses import dataclass

from ortools.sat.python import cp_model

from solver.outcome import Limits


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
