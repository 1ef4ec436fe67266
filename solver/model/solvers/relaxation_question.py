"""One question to the relaxation: its costs, its limits and the effort that it may take."""

from __future__ import annotations

import numpy as np

from solver.model.formulation.flow_row import Rides
from solver.model.solvers.highs_run import Effort
from solver.model.solvers.linear_rows import Floats
from solver.model.solvers.relax_and_fix import Least, relax_and_fix
from solver.model.solvers.relaxation_columns import Relaxation
from solver.quantities import FRACTION_GRID

BOUND_TOLERANCE = 0.02
"""What a bound by HiGHS's word is lowered by before rounding up [1/10,000]."""

STEADY_ITERATIONS = 2_000_000
"""Iterations of the simplex method after which a steady solve ends [1]."""

STEADY_NODE_ROWS, FEWEST_NODES = 200_000, 10
"""A steady search ends after so many nodes times rows, though not before a few nodes [1]."""


def relax_and_fix_rides(
    relaxation: Relaxation,
    costs: Floats,
    *,
    seconds: float,
    gap: float,
    fully: bool,
    start: Rides | None = None,
) -> Least:
    """Relax and fix under the effort that the relaxation allows."""
    effort = effort_of(relaxation, seconds)
    return relax_and_fix(
        relaxation.simplex,
        costs,
        effort,
        gap=gap,
        full=effort if fully else None,
        start=None if start is None else values_of(relaxation, start),
    )


def effort_of(relaxation: Relaxation, seconds: float) -> Effort:
    """What one solve may use: seconds, or steps where the relaxation is steady."""
    nodes = max(FEWEST_NODES, STEADY_NODE_ROWS // max(relaxation.program.rows, 1))
    steps = (STEADY_ITERATIONS, nodes) if relaxation.steady else None
    return Effort(seconds, steps=steps, seed=relaxation.seed, should_stop=relaxation.should_stop)


def limit_peak(relaxation: Relaxation, at_most: int) -> None:
    """Let no plan have a higher peak [1/10,000]."""
    relaxation.simplex.limit(relaxation.peak, min(1.0, (at_most + BOUND_TOLERANCE) / FRACTION_GRID))


def costs_of(relaxation: Relaxation, columns: list[int]) -> Floats:
    """A cost of 1 for each of some columns."""
    costs = np.zeros(relaxation.program.columns)
    costs[columns] = 1.0
    return costs


def hardness_costs(relaxation: Relaxation, *, lower_all: float) -> Floats:
    """What each column adds to how hard trips are (C,), and each trip's fraction `lower_all`."""
    costs = np.zeros(relaxation.program.columns)
    costs[relaxation.trip_peak] = lower_all
    for column, slope in relaxation.hard.items():
        costs[column] = slope
    return costs


def values_of(relaxation: Relaxation, rides: Rides) -> Floats:
    """Values of the ride columns (C,), not a number elsewhere."""
    values = np.full(relaxation.program.columns, np.nan)
    for ride, column in relaxation.rides.items():
        values[column] = rides.get(ride, 0)
    return values
