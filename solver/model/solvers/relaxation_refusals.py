"""What the relaxation refuses: that there is no plan, and what is too much or too little.

With divisible units and loads "no" is a proof, and amounts are no more than what is missing.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

import numpy as np

from solver.model.rows import LoadRow, Row
from solver.model.solvers.linear_program import least_whole
from solver.model.solvers.relaxation_columns import Relaxation
from solver.model.solvers.relaxation_question import (
    costs_of,
    effort_of,
    limit_peak,
    relax_and_fix_rides,
)
from solver.quantities import FRACTION_GRID

_CONFIRM_SEED = 1_000
"""Added to the seed for the second run that says that there is no plan [1]."""


def is_impossible(relaxation: Relaxation, *, seconds: float, divisible: bool = False) -> bool:
    """Whether not even divisible loads can be carried: then no plan exists.

    That no rides of divisible units will do is proven beyond floating point; that none of whole
    units will is said where two searches agree, one of them without presolve and from another
    seed. With `divisible` only the first counts.
    """
    if relaxation.impossible is not None:
        return True
    limit_peak(relaxation, FRACTION_GRID)
    simplex, costs = relaxation.simplex, costs_of(relaxation, [relaxation.peak])
    effort = effort_of(relaxation, seconds)
    relaxed = simplex.least(costs, effort)
    if relaxed.surely or divisible:
        return relaxed.surely
    return all(
        least_whole(
            simplex.program,
            costs,
            replace(effort, seed=effort.seed + seed),
            lower=simplex.lower,
            upper=simplex.upper,
            gap=math.inf,
            presolve=presolve,
        ).infeasible
        for presolve, seed in ((True, 0), (False, _CONFIRM_SEED))
    )


def least_excess(
    relaxation: Relaxation,
    *,
    seconds: float,
    counts: Callable[[LoadRow], bool] | None = None,
) -> list[tuple[LoadRow, float]] | None:
    """The loads that must pass their caps, by how much [kg or L], when each may.

    The total excess, as shares of the caps, is least. With `counts` only those rows count, by
    their amounts, and all others may be passed for nothing: what is left over is then missing
    because of these rows alone. None when not even that helps. Units are divisible here, so the
    amounts are no more than what is really missing.
    """
    assert relaxation.excess is not None  # noqa: S101 (the caller built it so)
    if relaxation.impossible is not None:
        return None
    costs = np.zeros(relaxation.program.columns)
    told = [(row, over) for row, over in relaxation.excess if counts is None or counts(row)]
    for row, over in told:
        costs[over] = 1000 / max(row.cap, 1) if counts is None else 1.0
    values = relaxation.simplex.least(costs, effort_of(relaxation, seconds)).values
    if values is None:
        return None
    return [(row, float(values[over])) for row, over in told if values[over] > 1e-6]


def least_shortage(relaxation: Relaxation, *, seconds: float) -> list[tuple[Row, float]] | None:
    """The rows that must fall short, by how much, when each may and loads are divisible.

    The number of units or the amount, as shares of what each row asks for, is least. None when
    not even that helps, or time ran out.
    """
    assert relaxation.short is not None  # noqa: S101 (the caller built it so)
    if relaxation.impossible is not None:
        return None
    costs = np.zeros(relaxation.program.columns)
    for row, over in relaxation.short.items():
        costs[over] = 1 / max(getattr(row, "at_least", 1), 1)
    values = relax_and_fix_rides(relaxation, costs, seconds=seconds, gap=1e-3, fully=True).values
    if values is None:
        return None
    return [
        (row, float(values[over])) for row, over in relaxation.short.items() if values[over] > 1e-6
    ]
