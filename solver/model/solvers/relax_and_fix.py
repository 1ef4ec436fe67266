"""Relax and fix: the linear program first, what came out whole kept, the small rest as a MIP.

96 to 98 % of the relaxation's whole columns come out whole of its linear program, so that the
rest is small. Where it has no solution, counts may differ by one from what came out. The linear
program's optimum is the bound; a search among all whole columns is only begun where the caller
gives it work to do, and then can only raise the bound.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from solver.model.solvers.highs_run import Effort
from solver.model.solvers.linear_program import Simplex, Whole, least_whole
from solver.model.solvers.linear_rows import Bools, Floats

_WHOLE = 1e-6
"""How near to a whole number a value is taken to be one [1]."""


@dataclass(frozen=True, slots=True)
class Least:
    """Whole values (C,), None where none were found, and what is known of the least.

    `bound` is proven by the linear program's duals; `searched` by a search among all whole
    columns, by HiGHS's word, −∞ where there was none. `infeasible` is HiGHS's word that no values
    keep every row, `surely` that this is proven.
    """

    values: Floats | None
    objective: float
    bound: float
    searched: float = -math.inf
    infeasible: bool = False
    surely: bool = False


def relax_and_fix(
    simplex: Simplex,
    costs: Floats,
    effort: Effort,
    *,
    gap: float,
    full: Effort | None,
    start: Floats | None = None,
) -> Least:
    """Whole values with little `costs`·x, and a bound.

    With `full`, a search among all whole columns follows where values and bound are more than the
    relative `gap` apart, begun from the best values so far or `start`.
    """
    relaxed = simplex.least(costs, effort)
    if relaxed.infeasible:
        return Least(None, math.inf, math.inf, infeasible=True, surely=relaxed.surely)
    least = Least(None, math.inf, relaxed.bound)
    if relaxed.values is not None:
        least = _fixed(simplex, costs, relaxed.values, least, effort, gap=gap, start=start)
    if full is None or _is_near(least, gap) or effort.is_over():
        return least
    whole = least_whole(
        simplex.program,
        costs,
        full,
        lower=simplex.lower,
        upper=simplex.upper,
        gap=gap,
        start=least.values if least.values is not None else start,
    )
    return _better(replace(least, searched=whole.bound, infeasible=whole.infeasible), whole)


def _is_near(least: Least, gap: float) -> bool:
    """Whether values were found that are within a relative gap of the bound."""
    if least.values is None:
        return False
    return least.objective - least.bound <= gap * max(abs(least.objective), 1e-9)


def _fixed(
    simplex: Simplex,
    costs: Floats,
    values: Floats,
    least: Least,
    effort: Effort,
    *,
    gap: float,
    start: Floats | None,
) -> Least:
    """The rest searched with what came out whole kept; else kept more loosely.

    First whatever came out whole, then counts within one of it, then only where `start` says the
    same, which leaves `start` itself.
    """
    nearest = np.rint(values)
    came_whole = simplex.program.whole & (np.abs(values - nearest) <= _WHOLE)
    exactly, by_one = np.zeros(len(values)), np.where(simplex.program.upper > 1, 1.0, 0.0)
    ways = [(came_whole, exactly), (came_whole, by_one)]
    if start is not None:
        ways.append((came_whole & (nearest == start), exactly))
    for kept, slack in ways:
        if effort.is_over():
            break
        lower, upper = _around(simplex, nearest, kept, slack)
        rest = least_whole(simplex.program, costs, effort, lower=lower, upper=upper, gap=0.5 * gap)
        if rest.values is not None:
            return _better(least, rest)
    return least


def _around(simplex: Simplex, nearest: Floats, kept: Bools, slack: Floats) -> tuple[Floats, Floats]:
    """Bounds that keep some columns within `slack` (C,) of their values."""
    lower = np.where(kept, np.maximum(simplex.lower, nearest - slack), simplex.lower)
    upper = np.where(kept, np.minimum(simplex.upper, nearest + slack), simplex.upper)
    return lower, upper


def _better(least: Least, whole: Whole) -> Least:
    if whole.values is None or whole.objective >= least.objective:
        return least
    return replace(least, values=whole.values, objective=whole.objective)
