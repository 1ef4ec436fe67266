"""Running a written model while every better plan and bound is told with its time.

CP-SAT calls back for both. Through MathOpt, HiGHS has no callback and SCIP's fails, so
their logs are read as they are written: both print a line for each better plan and, at
least every few seconds of search, one with the bound.
"""

from __future__ import annotations

import datetime as dt
import re
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from ortools.math_opt.python import mathopt
from ortools.sat.python import cp_model

from tests.benchmarks.race_models import CpSatModel, MipModel, bound_on_grid, peak_on_grid

WORKERS = 2

Tell = Callable[[float, int | None, int | None], None]
"""Takes seconds since the start, and a peak or a bound or both [1/10,000]."""


@dataclass
class Solution:
    """How a run ended; `values` are those of the model's whole variables, None without a plan."""

    proven: bool
    infeasible: bool
    values: list[int] | None = None


class _PlansFound(cp_model.CpSolverSolutionCallback):
    """Tells the peak of each plan that CP-SAT finds."""

    def __init__(self, begun: float, tell: Tell) -> None:
        super().__init__()
        self.begun, self.tell = begun, tell

    def on_solution_callback(self) -> None:
        """Tell what CP-SAT found just now."""
        self.tell(time.monotonic() - self.begun, round(self.objective_value), None)


@dataclass(frozen=True)
class CpSatRun:
    """A run of CP-SAT that has ended; `solver` knows the values when a plan was found."""

    solver: cp_model.CpSolver
    found: bool
    proven: bool
    infeasible: bool


def run_cp_sat(model: cp_model.CpModel, seconds: float, tell: Tell) -> CpSatRun:
    """Minimise with CP-SAT on two workers."""
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.num_workers = WORKERS
    solver.parameters.random_seed = 1
    begun = time.monotonic()
    solver.best_bound_callback = lambda bound: tell(time.monotonic() - begun, None, round(bound))
    status = solver.solve(model, _PlansFound(begun, tell))
    took = time.monotonic() - begun
    proven = status == cp_model.OPTIMAL
    found = proven or status == cp_model.FEASIBLE
    if found:
        tell(took, round(solver.objective_value), round(solver.best_objective_bound))
    return CpSatRun(solver, found, proven, status == cp_model.INFEASIBLE)


def solve_cp_sat(model: CpSatModel, seconds: float, tell: Tell) -> Solution:
    """Minimise a race model with CP-SAT."""
    run = run_cp_sat(model.model, seconds, tell)
    values = [run.solver.value(variable) for variable in model.wholes] if run.found else None
    return Solution(run.proven, run.infeasible, values)


def solve_mip(model: MipModel, solver: mathopt.SolverType, seconds: float, tell: Tell) -> Solution:
    """Minimise with a MIP solver; HiGHS chooses its threads itself, SCIP has one.

    It goes on when peak and bound are already the same on the grid: MathOpt's way of stopping
    a solve does nothing with HiGHS and fails with SCIP. Its proof counts from when they were.
    """
    begun = time.monotonic()
    read_line = LOG_READERS[solver]

    def read_log(lines: Sequence[str]) -> None:
        for line in lines:
            peak, bound = read_line(line)
            if peak is not None or bound is not None:
                tell(time.monotonic() - begun, peak, bound)

    result = mathopt.solve(
        model.model,
        solver,
        params=mathopt.SolveParameters(
            time_limit=dt.timedelta(seconds=seconds),
            relative_gap_tolerance=0.0,
            absolute_gap_tolerance=0.0,
        ),
        msg_cb=read_log,
    )
    took = time.monotonic() - begun
    ended = result.termination
    if not result.has_primal_feasible_solution():
        infeasible = ended.reason == mathopt.TerminationReason.INFEASIBLE
        return Solution(proven=False, infeasible=infeasible)
    tell(took, None, bound_on_grid(ended.objective_bounds.dual_bound))
    found = result.variable_values()
    return Solution(
        proven=ended.reason == mathopt.TerminationReason.OPTIMAL,
        infeasible=False,
        values=[round(found[variable]) for variable in model.wholes],
    )


def _number(text: str) -> float | None:
    """A number from a log; None for what is not finite or not there."""
    return float(text) if re.fullmatch(r"[+-]?\d+(\.\d+)?(e[+-]?\d+)?", text) else None


def _peak_and_bound(peak: str, bound: str) -> tuple[int | None, int | None]:
    best, proven = _number(peak), _number(bound)
    return (
        None if best is None else peak_on_grid(best),
        None if proven is None else bound_on_grid(proven),
    )


def read_highs_line(line: str) -> tuple[int | None, int | None]:
    """Peak and bound in a line of HiGHS's table: bound, best and gap follow a percentage."""
    columns = re.search(r"\d+\.\d+%\s+(\S+)\s+(\S+)\s+(\S+%|inf|Large)\s", line)
    if columns is None:
        return None, None
    return _peak_and_bound(columns[2], columns[1])


def read_scip_line(line: str) -> tuple[int | None, int | None]:
    """Peak and bound in a line of SCIP's table: the last columns but two, by strokes."""
    columns = [column.strip() for column in line.split("|")]
    if len(columns) < 8 or not re.search(r"\d+(\.\d+)?s$", columns[0]):
        return None, None
    return _peak_and_bound(columns[-3], columns[-4])


LOG_READERS: dict[mathopt.SolverType, Callable[[str], tuple[int | None, int | None]]] = {
    mathopt.SolverType.HIGHS: read_highs_line,
    mathopt.SolverType.GSCIP: read_scip_line,
}
