"""A lower bound on swaps: the same question about all trips, with units that can be divided.

It holds for plans whose units ride on the same trips and whose trips keep the same limits.
Preferences are left out, since they only make swaps more.
"""

from __future__ import annotations

import math

import numpy as np

from solver.model.goals.steady.ask_loads import Asked, ask_loads
from solver.model.goals.steady.ask_swaps import ask_swaps
from solver.model.goals.steady.expedition import Expedition
from solver.model.goals.steady.question import Question
from solver.model.goals.steady.window import all_of
from solver.model.solvers.highs_run import Effort
from solver.model.solvers.linear_program import Simplex
from solver.model.solvers.linear_rows import Writer
from solver.model.work import Work

_MOST_COLUMNS = 8_000
"""With more columns the linear program takes seconds, and its bound was 0 wherever tried [1]."""

_STEPS = 100_000
"""Iterations of the simplex method at most [1]."""

_ROUNDING = 1e-6
"""What a bound may be above a whole number by rounding alone [1]."""


def least_swaps(expedition: Expedition, work: Work) -> int:
    """Weighted swaps that no way of sharing out the same rides is below [1]; 0 where unknown."""
    question = Question()
    asked: dict[int, Asked] = {}
    for trip, one in enumerate(expedition.trips):
        asked[trip] = ask_loads(question, one, all_of(expedition, trip), None)
        if len(question.most) > _MOST_COLUMNS or work.is_over():
            return 0
    ask_swaps(question, expedition, asked)
    if len(question.most) > _MOST_COLUMNS or work.is_over():
        return 0
    writer = Writer()
    for most in question.most:
        writer.column(float(most))
    for row in question.rows:
        scale = float(max((abs(factor) for factor in row.factors), default=1))
        writer.row(
            [(c, factor / scale) for c, factor in zip(row.columns, row.factors, strict=True)],
            lower=-math.inf if row.lower is None else row.lower / scale,
            upper=row.upper / scale,
        )
    costs = np.array(question.cost, dtype=np.float64)
    effort = Effort(math.inf, steps=(_STEPS, 0), should_stop=work.should_stop)
    found = Simplex.of(writer.program()).least(costs, effort)
    return max(0, math.ceil(found.bound - _ROUNDING)) if math.isfinite(found.bound) else 0
