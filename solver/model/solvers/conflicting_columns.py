"""Which columns of a program without a solution are to blame, by Farkas rays of its duals.

A column is held by its bounds. Where a program has no solution, the ray that the simplex method
ends with says which columns' bounds the proof leans on; all others can be let go at once.
J. Gleeson and J. Ryan, "Identifying minimally infeasible subsystems of inequalities", ORSA J.
Computing 2, 1990 (from memory, unverified).
"""

from __future__ import annotations

from dataclasses import dataclass

import highspy
import numpy as np

from solver.model.solvers.highs_run import Effort, HighsRun
from solver.model.solvers.linear_rows import Bools, Floats, Program
from solver.model.solvers.safe_bound import safe_bound

_NEGLIGIBLE = 1e-9
"""Duals of a ray, and reduced costs by it, below this share of the largest are noise [1]."""


@dataclass(frozen=True, slots=True)
class Feasibility:
    """Whether values keep every row; `blamed` (C,) are the columns that a proof leans on.

    `solvable` is None where the time ended or nothing was proven beyond floating point.
    """

    solvable: bool | None
    blamed: Bools | None = None


class FeasibilityQuestions:
    """One program asked again and again between other bounds, each time from the last basis.

    Presolve stays off: a ray is wanted, and after presolve HiGHS would solve again for one.
    """

    def __init__(self, program: Program) -> None:
        self._program = program
        self._costs = np.zeros(program.columns)
        self._run = HighsRun()
        self._run.set("presolve", "off")
        self._run.load(program, self._costs, program.lower, program.upper, with_whole=False)

    def ask(self, lower: Floats, upper: Floats, effort: Effort) -> Feasibility:
        """Whether any values between these bounds (C,) keep every row."""
        every = np.arange(self._program.columns, dtype=np.int32)
        highs = self._run.highs
        highs.changeColsBounds(len(every), every, lower, upper)
        self._run.limit(effort)
        if not self._run.go(effort):
            return Feasibility(None)
        status = highs.getModelStatus()
        if status == highspy.HighsModelStatus.kOptimal:
            return Feasibility(solvable=True)
        if status != highspy.HighsModelStatus.kInfeasible:
            return Feasibility(None)
        blamed = self._blamed(lower, upper)
        return Feasibility(None if blamed is None else False, blamed)

    def _blamed(self, lower: Floats, upper: Floats) -> Bools | None:
        """The columns that the ray leans on (C,); None where it proves nothing."""
        # The stubs of 1.16 lack it.
        _, there, ray = self._run.highs.getDualRay()  # type: ignore[attr-defined]
        if not there:
            return None
        duals = np.array(ray)
        duals /= max(1e-300, float(np.abs(duals).max(initial=0.0)))
        duals[np.abs(duals) < _NEGLIGIBLE] = 0.0
        for sign in (1.0, -1.0):
            if safe_bound(self._program, self._costs, sign * duals, lower, upper) > 0:
                return self._leans_on(duals)
        return None

    def _leans_on(self, duals: Floats) -> Bools:
        """The columns whose reduced cost by the ray is not nothing (C,)."""
        program = self._program
        entries = program.value * np.repeat(duals, np.diff(program.start))
        reduced = np.bincount(program.index, weights=entries, minlength=program.columns)
        leans: Bools = np.abs(reduced) > _NEGLIGIBLE
        return leans
