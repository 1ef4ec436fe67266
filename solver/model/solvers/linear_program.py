"""Linear programs solved by the simplex method, and MIPs, both by HiGHS."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Self

import highspy
import numpy as np

from solver.model.solvers.highs_run import Effort, HighsRun
from solver.model.solvers.linear_rows import Floats, Program
from solver.model.solvers.safe_bound import safe_bound

_NEGLIGIBLE = 1e-9
"""Duals of a ray below this share of its largest are noise [1]."""


@dataclass(frozen=True, slots=True)
class Relaxed:
    """What the simplex method ended with.

    `bound` holds whatever else is so, −∞ where nothing is known. `values` (C,) keep every row up
    to HiGHS's tolerance, None where it has none; they are the best where `optimal`. `infeasible`
    is HiGHS's word; `surely` says that it was proven beyond floating point.
    """

    values: Floats | None
    bound: float
    optimal: bool
    infeasible: bool = False
    surely: bool = False


@dataclass(frozen=True, slots=True)
class Whole:
    """What a MIP search ended with; `bound` is HiGHS's own, −∞ where it has none."""

    values: Floats | None
    objective: float
    bound: float
    proven: bool
    infeasible: bool


@dataclass(slots=True)
class Simplex:
    """A program with all columns divisible; bounds and costs may change.

    A basis is kept for the next call with the same costs, whatever the bounds are by then. It is
    not kept from one goal to the next: from the peak's basis the least sum took six times as long
    as from none (xxl on glaciers: 21.5 s against 3.3 s), since HiGHS simplifies a program only
    where it has no basis.
    """

    program: Program
    lower: Floats
    upper: Floats
    _runs: dict[bytes, HighsRun] = field(default_factory=dict)

    @classmethod
    def of(cls, program: Program) -> Self:
        """A program with the bounds that it was written with."""
        return cls(program, program.lower.copy(), program.upper.copy())

    def limit(self, column: int, upper: float) -> None:
        """Give a column another upper bound."""
        self.upper[column] = upper

    def least(self, costs: Floats, effort: Effort) -> Relaxed:
        """The least of `costs`·x, begun from where the last call with these costs ended."""
        run = self._loaded(costs)
        run.limit(effort, simplex_iteration_limit=effort.steps and effort.steps[0])
        if not run.go(effort):
            del self._runs[costs.tobytes()]
            return Relaxed(None, -math.inf, optimal=False)
        status = run.highs.getModelStatus()
        if status == highspy.HighsModelStatus.kInfeasible:
            return Relaxed(
                None, math.inf, optimal=False, infeasible=True, surely=self._surely(run.highs)
            )
        solution = run.highs.getSolution()
        bound = -math.inf
        if solution.dual_valid:
            duals = np.array(solution.row_dual)
            bound = safe_bound(self.program, costs, duals, self.lower, self.upper)
        optimal = status == highspy.HighsModelStatus.kOptimal
        values = np.array(solution.col_value) if optimal else None
        return Relaxed(values, bound, optimal=optimal)

    def _loaded(self, costs: Floats) -> HighsRun:
        """HiGHS with the program as it stands now."""
        run = self._runs.get(costs.tobytes())
        if run is None:
            run = self._runs[costs.tobytes()] = HighsRun()
            # Devex weights are cheaper than steepest edge and took 0.6 to 1.0 times as long here.
            run.set("simplex_dual_edge_weight_strategy", 1)
            run.load(self.program, costs, self.lower, self.upper, with_whole=False)
        else:
            every = np.arange(self.program.columns, dtype=np.int32)
            run.highs.changeColsBounds(len(every), every, self.lower, self.upper)
        return run

    def _surely(self, highs: highspy.Highs) -> bool:
        """Whether the ray that HiGHS gives proves that no values keep every row."""
        # The stubs of 1.16 lack it.
        _, there, ray = highs.getDualRay()  # type: ignore[attr-defined]
        if not there:
            return False
        duals, nothing = np.array(ray), np.zeros(self.program.columns)
        duals /= max(1e-300, float(np.abs(duals).max(initial=0.0)))
        duals[np.abs(duals) < _NEGLIGIBLE] = 0.0
        return any(
            safe_bound(self.program, nothing, sign * duals, self.lower, self.upper) > 0
            for sign in (1.0, -1.0)
        )


def least_whole(
    program: Program,
    costs: Floats,
    effort: Effort,
    *,
    lower: Floats,
    upper: Floats,
    gap: float,
    start: Floats | None = None,
    presolve: bool = True,
) -> Whole:
    """The least of `costs`·x with whole columns whole, between bounds of the caller's.

    `gap` is the relative distance between values and bound to be content with. `start` (C,) are
    values to begin from; what is not a number is for HiGHS to fill in.
    """
    run = HighsRun()
    run.load(program, costs, lower, upper, with_whole=True)
    run.set("mip_rel_gap", gap)
    run.set("mip_abs_gap", 0.0)
    run.set("presolve", "choose" if presolve else "off")
    run.limit(effort, mip_max_nodes=effort.steps and effort.steps[1])
    if start is not None:
        known = np.flatnonzero(np.isfinite(start)).astype(np.int32)
        run.highs.setSolution(len(known), known, start[known])
    if not run.go(effort):
        return Whole(None, math.inf, -math.inf, proven=False, infeasible=False)
    status, info = run.highs.getModelStatus(), run.highs.getInfo()
    if status == highspy.HighsModelStatus.kInfeasible:
        return Whole(None, math.inf, math.inf, proven=False, infeasible=True)
    found = info.primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
    proven = status == highspy.HighsModelStatus.kOptimal
    bound = info.mip_dual_bound if program.whole.any() else -math.inf
    return Whole(
        values=np.array(run.highs.getSolution().col_value) if found else None,
        objective=info.objective_function_value if found else math.inf,
        bound=bound if math.isfinite(bound) else -math.inf,
        proven=proven,
        infeasible=False,
    )
