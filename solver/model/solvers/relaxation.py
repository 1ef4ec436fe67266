"""The relaxation: which units ride which trips, with everybody's loads as amounts.

Rides are whole units, exactly as in the carrier model; what each pack and sled takes is an
amount of mass and of volume, divisible at will. Every real plan maps into it, so its optimum
is a true lower bound on the peak, and its rides are the skeleton of a plan.

`relaxation_rows` writes it, `relax_and_fix` solves it; here stands what is asked of it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from solver.model.assignment.by_trip import Rides
from solver.model.assignment.load_fractions import climb_m
from solver.model.rows import LoadRow, Row
from solver.model.solvers.highs_run import Effort
from solver.model.solvers.linear_program import least_whole
from solver.model.solvers.linear_rows import Floats
from solver.model.solvers.relax_and_fix import Least, relax_and_fix
from solver.model.solvers.relaxation_rows import Master, build_master
from solver.quantities import FRACTION_GRID

__all__ = [
    "Master",
    "Skeleton",
    "build_master",
    "is_impossible",
    "least_excess",
    "least_mass_height",
    "least_peak_bound",
    "least_shortage",
    "least_sum_bound",
    "solve_master",
]

SLACK = 0.02
"""What a bound by HiGHS's word is lowered by before rounding up [1/10,000]."""

STEADY_STEPS = (2_000_000, 500)
"""Iterations and nodes after which a steady solve of the relaxation ends [1]."""

_CONFIRM_SEED = 1_000
"""Added to the seed for the second run that says that there is no plan [1]."""


@dataclass(frozen=True, slots=True)
class Skeleton:
    """Units by (cargo, trip), the fraction that each trip needs at least, and a bound.

    `bound` holds for the goal that was minimised, on the grid of 1/10,000 [1].
    """

    rides: dict[tuple[int, int], int]
    trip_fractions: tuple[int, ...]
    bound: int
    proven: bool


def solve_master(
    master: Master,
    *,
    seconds: float,
    gap: float,
    sum_of_trips: bool,
    peak_at_most: int,
    start: Rides | None = None,
    fully: bool = False,
) -> Skeleton | None:
    """Little peak, or a little sum of the trips' fractions under a given peak, and a bound.

    `start` are rides of a plan to begin from, `gap` the relative distance to be content with.
    `fully` goes on to search among all rides where that distance is not reached.

    None when there is no plan (`Skeleton.bound` would be beyond the grid) or no time; ask
    `is_impossible` to tell which.
    """
    _limit_peak(master, peak_at_most)
    costs = _costs(master, master.trip_peak if sum_of_trips else [master.peak])
    least = _least(master, costs, seconds=seconds, gap=gap, fully=fully, start=start)
    if least.values is None:
        return None
    bound = _grid_bound(least)
    return Skeleton(
        rides=_read_rides(master, least.values),
        trip_fractions=tuple(
            math.ceil(least.values[z] * FRACTION_GRID - SLACK) for z in master.trip_peak
        ),
        bound=bound,
        proven=math.ceil(least.objective * FRACTION_GRID - SLACK) <= bound,
    )


def least_peak_bound(master: Master, *, seconds: float) -> int | None:
    """A bound on the peak, with divisible units [1/10,000]; None where none can be kept.

    None is proven; 0 where time ran out.
    """
    _limit_peak(master, FRACTION_GRID)
    relaxed = master.simplex.least(_costs(master, [master.peak]), _effort(master, seconds))
    if relaxed.infeasible:
        return None if relaxed.surely else 0
    return _grid_bound(Least(None, math.inf, relaxed.bound))


def least_sum_bound(
    master: Master, *, seconds: float, peak_at_most: int, fully: bool = False
) -> int | None:
    """A bound on the sum of the trips' fractions under a peak [1/10,000].

    With `fully` that of a search among all rides, else that of divisible units.
    """
    _limit_peak(master, peak_at_most)
    costs = _costs(master, master.trip_peak)
    if fully:
        simplex = master.simplex
        whole = least_whole(
            simplex.program,
            costs,
            _effort(master, seconds),
            lower=simplex.lower,
            upper=simplex.upper,
            gap=1e-6,
        )
        least = Least(None, math.inf, -math.inf, searched=whole.bound)
    else:
        relaxed = master.simplex.least(costs, _effort(master, seconds))
        least = Least(None, math.inf, relaxed.bound)
    bound = max(least.bound, least.searched)
    return _grid_bound(least) if math.isfinite(bound) else None


def least_mass_height(
    master: Master, *, seconds: float, trip_limits: list[int], start: Rides
) -> tuple[Rides, int] | None:
    """Rides with little mass × height whose trips keep to their fractions, and a bound [g·m].

    Both are without the fixed part (water, lunch, sleds). None when time ran out.
    """
    frame, simplex = master.frame, master.simplex
    _limit_peak(master, FRACTION_GRID)
    for limit, peak in zip(trip_limits, master.trip_peak, strict=True):
        simplex.limit(peak, (limit + SLACK) / FRACTION_GRID)
    climbs_m = [climb_m(frame, trip) for trip in range(len(frame.carriers))]
    work = {
        (cargo, trip): frame.weight(cargo, trip, of_mass=True) * climbs_m[trip]
        for cargo, trip in (*master.rides, *master.settled)
        if climbs_m[trip]
    }
    costs = np.zeros(master.program.columns)
    for ride, column in master.rides.items():
        costs[column] = work.get(ride, 0) / 1e6
    least = _least(master, costs, seconds=seconds, gap=1e-6, fully=True, start=start)
    for peak in master.trip_peak:
        simplex.limit(peak, 1.0)
    if least.values is None:
        return None
    fixed = sum(units * work.get(ride, 0) for ride, units in master.settled.items())
    bound = max(least.bound, least.searched)
    proven = max(0, math.floor(bound * 1e6 - 1)) if math.isfinite(bound) else 0
    return _read_rides(master, least.values), fixed + proven


def least_excess(master: Master, *, seconds: float) -> list[tuple[LoadRow, float]] | None:
    """The loads that must pass their caps, by how much [kg or L], when each may.

    The total excess, as shares of the caps, is least. None when not even that helps. Units
    are divisible here, so the amounts are no more than what is really missing.
    """
    assert master.excess is not None  # noqa: S101 (the caller built it so)
    if master.impossible is not None:
        return None
    costs = np.zeros(master.program.columns)
    for row, over in master.excess:
        costs[over] = 1000 / max(row.cap, 1)
    values = master.simplex.least(costs, _effort(master, seconds)).values
    if values is None:
        return None
    return [(row, float(values[over])) for row, over in master.excess if values[over] > 1e-6]


def least_shortage(master: Master, *, seconds: float) -> list[tuple[Row, float]] | None:
    """The rows that must fall short, by how much, when each may and loads are divisible.

    The number of units or the amount, as shares of what each row asks for, is least. None when
    not even that helps, or time ran out.
    """
    assert master.short is not None  # noqa: S101 (the caller built it so)
    if master.impossible is not None:
        return None
    costs = np.zeros(master.program.columns)
    for row, over in master.short.items():
        costs[over] = 1 / max(getattr(row, "at_least", 1), 1)
    values = _least(master, costs, seconds=seconds, gap=1e-3, fully=True).values
    if values is None:
        return None
    return [(row, float(values[over])) for row, over in master.short.items() if values[over] > 1e-6]


def is_impossible(master: Master, *, seconds: float, divisible: bool = False) -> bool:
    """Whether not even divisible loads can be carried: then no plan exists.

    That no rides of divisible units will do is proven beyond floating point; that none of whole
    units will is said where two searches agree, one of them without presolve and from another
    seed. With `divisible` only the first counts.
    """
    if master.impossible is not None:
        return True
    _limit_peak(master, FRACTION_GRID)
    simplex, costs = master.simplex, _costs(master, [master.peak])
    effort = _effort(master, seconds)
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


def _least(
    master: Master,
    costs: Floats,
    *,
    seconds: float,
    gap: float,
    fully: bool,
    start: Rides | None = None,
) -> Least:
    effort = _effort(master, seconds)
    return relax_and_fix(
        master.simplex,
        costs,
        effort,
        gap=gap,
        full=effort if fully else None,
        start=None if start is None else _values_of(master, start),
    )


def _effort(master: Master, seconds: float) -> Effort:
    steps = STEADY_STEPS if master.steady else None
    return Effort(seconds, steps=steps, seed=master.seed, should_stop=master.should_stop)


def _limit_peak(master: Master, at_most: int) -> None:
    master.simplex.limit(master.peak, min(1.0, (at_most + SLACK) / FRACTION_GRID))


def _costs(master: Master, columns: list[int]) -> Floats:
    """A cost of 1 for each of some columns."""
    costs = np.zeros(master.program.columns)
    costs[columns] = 1.0
    return costs


def _grid_bound(least: Least) -> int:
    """The bound in whole steps of the grid; what is proven needs no slack [1/10,000]."""
    proven = least.bound * FRACTION_GRID
    searched = least.searched * FRACTION_GRID - SLACK
    best = max(proven, searched)
    return max(0, math.ceil(best)) if math.isfinite(best) else 0


def _values_of(master: Master, rides: Rides) -> Floats:
    """Values of the ride columns (C,), not a number elsewhere."""
    values = np.full(master.program.columns, np.nan)
    for ride, column in master.rides.items():
        values[column] = rides.get(ride, 0)
    return values


def _read_rides(master: Master, values: Floats) -> Rides:
    chosen = {ride: round(values[column]) for ride, column in master.rides.items()}
    rides = {ride: units for ride, units in (master.settled | chosen).items() if units}
    return dict(sorted(rides.items()))
