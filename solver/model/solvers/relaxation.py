"""The relaxation: which units ride which trips, with everybody's loads as amounts.

Rides are whole units, exactly as in the carrier model; what each pack and sled takes is an
amount of mass and of volume, divisible at will. Every real plan maps into it, so its optimum
is a true lower bound on the peak, and its rides are where a plan begins.

`relaxation_rows` writes it, `relax_and_fix` solves it; here stand its bounds and plans.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from solver.model.formulation.ascent import ascent_m
from solver.model.formulation.flow_row import Rides
from solver.model.solvers.linear_program import least_whole
from solver.model.solvers.linear_rows import Floats
from solver.model.solvers.relax_and_fix import Least
from solver.model.solvers.relaxation_columns import Relaxation
from solver.model.solvers.relaxation_question import (
    BOUND_TOLERANCE,
    costs_of,
    effort_of,
    hardness_costs,
    limit_peak,
    relax_and_fix_rides,
)
from solver.model.solvers.relaxation_rows import build_relaxation
from solver.quantities import FRACTION_GRID

__all__ = [
    "Relaxation",
    "RelaxedPlan",
    "build_relaxation",
    "least_hardness_bound",
    "least_mass_ascent",
    "least_peak_bound",
    "solve_relaxation",
]

LIGHT_SLOPE = 0.05
"""What each part of a trip's fraction counts even where the trip is not hard [1]."""

SEARCHED_RIDES = 1_000
"""Up to how many rides with a choice a steady solve searches among all of them [1].

Nodes do not bound such a search well: the first one may take minutes of cuts.
"""


@dataclass(frozen=True, slots=True)
class RelaxedPlan:
    """Units by (cargo, trip), the fraction that each trip needs with these, and a bound.

    `trip_fractions` and `bound`, which holds for the goal that was minimised, are on the grid
    [1/10,000]; `unrounded` and `unrounded_bound` are both before they are put on it [1/10,000].
    """

    rides: dict[tuple[int, int], int]
    trip_fractions: tuple[int, ...]
    bound: int
    proven: bool
    unrounded: tuple[float, ...]
    unrounded_bound: float


def solve_relaxation(
    relaxation: Relaxation,
    *,
    seconds: float,
    gap: float,
    low_trips: bool,
    peak_at_most: int,
    start: Rides | None = None,
    fully: bool = False,
) -> RelaxedPlan | None:
    """A low peak, or few hard and otherwise low trips under a given peak, and a bound.

    `start` are rides of a plan to begin from, `gap` the relative distance to be content with.
    `fully` goes on to search among all rides where that distance is not reached.

    None when there is no plan (`RelaxedPlan.bound` would be beyond the grid) or no time; ask
    `is_impossible` to tell which.
    """
    limit_peak(relaxation, peak_at_most)
    if low_trips:
        costs = hardness_costs(relaxation, lower_all=LIGHT_SLOPE)
    else:
        costs = costs_of(relaxation, [relaxation.peak])
    least = relax_and_fix_rides(
        relaxation, costs, seconds=seconds, gap=gap, fully=fully, start=start
    )
    if least.values is None:
        return None
    bound = _grid_bound(least)
    unrounded = tuple(float(least.values[z]) * FRACTION_GRID for z in relaxation.trip_peak)
    return RelaxedPlan(
        rides=_read_rides(relaxation, least.values),
        trip_fractions=tuple(math.ceil(z - BOUND_TOLERANCE) for z in unrounded),
        bound=bound,
        proven=math.ceil(least.objective * FRACTION_GRID - BOUND_TOLERANCE) <= bound,
        unrounded=unrounded,
        unrounded_bound=_unrounded_bound(least),
    )


def least_peak_bound(relaxation: Relaxation, *, seconds: float) -> int | None:
    """A bound on the peak, with divisible units [1/10,000]; None where none can be kept.

    None is proven; 0 where time ran out.
    """
    limit_peak(relaxation, FRACTION_GRID)
    relaxed = relaxation.simplex.least(
        costs_of(relaxation, [relaxation.peak]), effort_of(relaxation, seconds)
    )
    if relaxed.infeasible:
        return None if relaxed.surely else 0
    return _grid_bound(Least(None, math.inf, relaxed.bound))


def least_hardness_bound(
    relaxation: Relaxation, *, seconds: float, peak_at_most: int, fully: bool = False
) -> float | None:
    """A bound on how hard trips are under a peak, not yet rounded up [1/10,000, weighted].

    With `fully` that of a search among all rides, else that of divisible units.
    """
    limit_peak(relaxation, peak_at_most)
    costs = hardness_costs(relaxation, lower_all=0.0)
    if fully:
        simplex = relaxation.simplex
        whole = least_whole(
            simplex.program,
            costs,
            effort_of(relaxation, seconds),
            lower=simplex.lower,
            upper=simplex.upper,
            gap=1e-6,
        )
        least = Least(None, math.inf, -math.inf, searched=whole.bound)
    else:
        relaxed = relaxation.simplex.least(costs, effort_of(relaxation, seconds))
        least = Least(None, math.inf, relaxed.bound)
    bound = _unrounded_bound(least)
    return bound if math.isfinite(bound) else None


def least_mass_ascent(
    relaxation: Relaxation, *, seconds: float, trip_limits: list[int], start: Rides
) -> tuple[Rides, int] | None:
    """Rides with little mass × ascent whose trips keep to their fractions, and a bound [g·m].

    Both are without the fixed part (water, lunch, sleds). None when time ran out.
    """
    frame, simplex = relaxation.frame, relaxation.simplex
    limit_peak(relaxation, FRACTION_GRID)
    for limit, peak in zip(trip_limits, relaxation.trip_peak, strict=True):
        simplex.limit(peak, (limit + BOUND_TOLERANCE) / FRACTION_GRID)
    ascents_m = [ascent_m(frame, trip) for trip in range(len(frame.carriers))]
    work = {
        (cargo, trip): frame.weight(cargo, trip, of_mass=True) * ascents_m[trip]
        for cargo, trip in (*relaxation.rides, *relaxation.settled)
        if ascents_m[trip]
    }
    costs = np.zeros(relaxation.program.columns)
    for ride, column in relaxation.rides.items():
        costs[column] = work.get(ride, 0) / 1e6
    fully = not relaxation.steady or len(relaxation.rides) <= SEARCHED_RIDES
    least = relax_and_fix_rides(
        relaxation, costs, seconds=seconds, gap=1e-6, fully=fully, start=start
    )
    for peak in relaxation.trip_peak:
        simplex.limit(peak, 1.0)
    if least.values is None:
        return None
    fixed = sum(units * work.get(ride, 0) for ride, units in relaxation.settled.items())
    bound = max(least.bound, least.searched)
    proven = max(0, math.floor(bound * 1e6 - 1)) if math.isfinite(bound) else 0
    return _read_rides(relaxation, least.values), fixed + proven


def _grid_bound(least: Least) -> int:
    """The bound in whole steps of the grid [1/10,000]."""
    best = _unrounded_bound(least)
    return max(0, math.ceil(best)) if math.isfinite(best) else 0


def _unrounded_bound(least: Least) -> float:
    """The better of both bounds; what is proven needs no tolerance [1/10,000]."""
    return max(least.bound * FRACTION_GRID, least.searched * FRACTION_GRID - BOUND_TOLERANCE)


def _read_rides(relaxation: Relaxation, values: Floats) -> dict[tuple[int, int], int]:
    chosen = {ride: round(values[column]) for ride, column in relaxation.rides.items()}
    rides = {ride: units for ride, units in (relaxation.settled | chosen).items() if units}
    return dict(sorted(rides.items()))
