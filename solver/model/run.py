"""How much time each part of a search gets, and how one run of CP-SAT is set up."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from threading import Event, Thread

from solver.model.cp_sat import cp_model
from solver.outcome import Limits
from solver.progress import Watch

_BOUND_SHARE = 0.05
"""Time for a bound on a later goal, as a share of what a racing search has taken so far [1]."""


_LOOK_SECONDS = 0.05
"""Between two questions whether to stop [s]."""

STEADY_WORK = 0.25
"""CP-SAT's own deterministic time that stands for a second: it took two to four here [1]."""


class StoppableSolver(cp_model.CpSolver):
    """CP-SAT that is stopped as soon as somebody wishes it."""

    def __init__(self, should_stop: Callable[[], bool]) -> None:
        super().__init__()
        self._should_stop = should_stop

    def solve(
        self,
        model: cp_model.CpModel,
        solution_callback: cp_model.CpSolverSolutionCallback | None = None,
    ) -> cp_model.CpSolverStatus:
        """Solve, with a thread beside that looks whether to stop.

        A stop before the search has begun would be lost, so it is said until the search ends.
        """
        ended = Event()

        def look() -> None:
            while not ended.wait(_LOOK_SECONDS):
                if self._should_stop():
                    self.stop_search()

        watcher = Thread(target=look, daemon=True)
        watcher.start()
        try:
            return super().solve(model, solution_callback)
        finally:
            ended.set()
            watcher.join()


@dataclass(frozen=True, slots=True)
class Run:
    """How one run of CP-SAT is set: time, workers, seed, and whether presolve is on.

    A `steady` run counts the solver's own deterministic time instead of wall time [s].
    `should_stop` is asked while it works.
    """

    seconds: float
    workers: int = 1
    seed: int = 1
    presolve: bool = True
    steady: bool = False
    should_stop: Callable[[], bool] | None = None

    def solver(self) -> cp_model.CpSolver:
        """A solver with these settings."""
        asked = self.should_stop
        solver = cp_model.CpSolver() if asked is None else StoppableSolver(asked)
        if self.steady:
            solver.parameters.max_deterministic_time = STEADY_WORK * max(self.seconds, 0.01)
        else:
            solver.parameters.max_time_in_seconds = max(self.seconds, 0.01)
        solver.parameters.num_workers = self.workers
        solver.parameters.random_seed = self.seed
        solver.parameters.cp_model_presolve = self.presolve
        return solver


def run_within(limits: Limits, seconds: float, watch: Watch | None = None) -> Run:
    """A run of so much time under a solve's limits, which ends when the watch's caller wishes."""
    return Run(
        seconds,
        workers=limits.workers if limits.racing else 1,
        seed=limits.seed,
        steady=not limits.racing,
        should_stop=None if watch is None else watch.is_over,
    )


def bound_seconds(watch: Watch, share: float) -> float:
    """Time for a bound on a later goal: a share of what is left, in measure with the rest [s]."""
    seconds = share * watch.left()
    return seconds if watch.steady else min(seconds, max(0.2, _BOUND_SHARE * watch.elapsed()))
