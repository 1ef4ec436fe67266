"""The relaxation: which units ride which trips, with everybody's loads as amounts.

Rides are whole units, exactly as in the carrier model; what each pack and sled takes is an
amount of mass and of volume, divisible at will. Every real plan maps into it, so its optimum
is a true lower bound on the peak, and its rides are the relaxed of a plan.

Amounts are in kg and L, load fractions as fractions, which keeps the numbers of the same
size for the linear solver. The file is long because all that is asked of the one model stands
beside it.
"""

from __future__ import annotations

import datetime as dt
import math
from collections import defaultdict
from dataclasses import dataclass

from ortools.math_opt.python import mathopt

from solver.model.formulation.ascent import ascent_m
from solver.model.formulation.flow_balance import left_after_loss
from solver.model.formulation.flow_row import Rides
from solver.model.formulation.flow_rows import flow_rows
from solver.model.formulation.frame import Carrier, Frame
from solver.model.rows import CountRow, LoadRow, LossRow, Row
from solver.quantities import FRACTION_GRID

BOUND_TOLERANCE = 0.02
"""What a bound from floating point is lowered by before rounding up [1/10,000]."""


STEADY_NODES = 2_000
"""Nodes after which a steady search of the relaxation ends [1]."""


@dataclass(frozen=True, slots=True)
class RelaxedPlan:
    """Units by (cargo, trip), the fraction that each trip needs at least, and a bound.

    `bound` holds for the goal that was minimised, on the grid of 1/10,000 [1].
    """

    rides: dict[tuple[int, int], int]
    trip_fractions: tuple[int, ...]
    bound: int
    proven: bool


@dataclass(slots=True)
class Relaxation:
    """The linear model and its variables; kept between goals, which only change its objective."""

    frame: Frame
    model: mathopt.Model
    rides: dict[tuple[int, int], mathopt.Variable | int]
    trip_peak: list[mathopt.Variable]
    peak: mathopt.Variable
    impossible: str | None = None
    steady: bool = False
    excess: list[tuple[LoadRow, mathopt.Variable]] | None = None
    short: dict[Row, mathopt.Variable] | None = None


def build_relaxation(
    frame: Frame, *, with_excess: bool = False, with_shortage: bool = False, steady: bool = False
) -> Relaxation:
    """Write the rows of a frame with loads as amounts.

    `with_excess` lets every load pass its cap by an amount of its own, kept in `excess`, to
    find out how much is missing where there is no plan; `with_shortage` lets every row on
    what must be somewhere fall short by an amount of its own, kept in `short`. A `steady`
    relaxation limits the nodes of its search instead of the time.
    """
    model = mathopt.Model(name="relaxation")
    trips = frame.world.timeline.trips
    relaxation = Relaxation(
        frame=frame,
        model=model,
        rides={},
        trip_peak=[model.add_variable(lb=0.0, ub=1.0, name=f"z{t.index}") for t in trips],
        peak=model.add_variable(lb=0.0, ub=1.0, name="peak"),
        steady=steady,
        excess=[] if with_excess else None,
        short={} if with_shortage else None,
    )
    for cargo, its_trips in enumerate(frame.allowed_trips):
        count = frame.world.cargo[cargo].count
        for trip in its_trips:
            if (cargo, trip) in frame.settled:
                relaxation.rides[cargo, trip] = count
                if not frame.may_carry[cargo, trip]:
                    relaxation.impossible = "units_ride_with_people"
            else:
                relaxation.rides[cargo, trip] = model.add_integer_variable(
                    lb=0, ub=count, name=f"y{cargo}.{trip}"
                )
    _add_flows(relaxation)
    _add_whole_losses(relaxation)
    for trip in range(len(trips)):
        _add_trip(relaxation, trip)
        model.add_linear_constraint(relaxation.peak >= relaxation.trip_peak[trip])
    return relaxation


def _add_flows(relaxation: Relaxation) -> None:
    for row in flow_rows(relaxation.frame):
        fixed = row.constant
        loose = []
        for ride, factor in row.terms:
            units = relaxation.rides[ride]
            if isinstance(units, int):
                fixed += factor * units
            else:
                loose.append(factor * units)
        if relaxation.short is not None and row.about is not None:
            loose.append(_shortage(relaxation, row.about) * _carriers(relaxation.frame, row.about))
        if loose:
            relaxation.model.add_linear_constraint(mathopt.LinearSum(loose) >= -fixed)
        elif fixed < 0:
            relaxation.impossible = relaxation.impossible or row.rule_id


def _add_whole_losses(relaxation: Relaxation) -> None:
    """No unit rides whose loss alone would be too much: one carrier must have it whole.

    The rows on flows share what rides out among all carriers at will; a unit that counts for
    much, such as a large can, cannot be shared.
    """
    frame, model = relaxation.frame, relaxation.model
    for row in (row for rows in frame.spread_rows for row in rows):
        if not isinstance(row, LossRow):
            continue
        slack = left_after_loss(frame, row)
        parts = [factor * relaxation.rides[ride] for ride, factor in slack.terms]
        for cargo, weight in row.terms:
            units = relaxation.rides.get((cargo, row.trip), 0)
            if weight == 1 or isinstance(units, int):
                rides: mathopt.Variable | int = min(units, 1) if isinstance(units, int) else units
            elif frame.world.cargo[cargo].count == 1:
                rides = units
            else:
                rides = model.add_binary_variable()
                model.add_linear_constraint(units <= frame.world.cargo[cargo].count * rides)
            if weight > 1 and not (isinstance(rides, int) and rides == 0):
                spare = [] if relaxation.short is None else [_shortage(relaxation, row)]
                left = mathopt.LinearSum([*parts, *spare, float(slack.constant)])
                model.add_linear_constraint(left >= weight * rides)


def _shortage(relaxation: Relaxation, row: Row) -> mathopt.Variable:
    """By how much a row falls short, in its own unit."""
    assert relaxation.short is not None  # noqa: S101 (the caller asked)
    if row not in relaxation.short:
        relaxation.short[row] = relaxation.model.add_variable(lb=0.0)
    return relaxation.short[row]


def _carriers(frame: Frame, row: Row) -> int:
    """How often a row counts in its flow: rows on one carrier are summed over all."""
    return len(frame.carriers[row.trip]) if isinstance(row, LossRow | CountRow) else 1


def _add_trip(relaxation: Relaxation, trip: int) -> None:
    """Amounts of mass and volume in each carrier of a trip, and the rows on them."""
    frame, model = relaxation.frame, relaxation.model
    groups: dict[tuple[Carrier, ...], list[int]] = defaultdict(list)
    for cargo in frame.allowed_cargo[trip]:
        groups[frame.may_carry[cargo, trip]].append(cargo)
    amount: dict[tuple[str, bool], list[mathopt.LinearBase | float]] = defaultdict(list)
    for able, cargoes in groups.items():
        for of_mass in (True, False):
            total: list[mathopt.LinearBase | float] = [
                frame.weight(cargo, trip, of_mass=of_mass) / 1000 * relaxation.rides[cargo, trip]
                for cargo in cargoes
                if frame.weight(cargo, trip, of_mass=of_mass)
            ]
            if not total:
                continue
            if len(able) == 1:
                amount[able[0].carrier_id, of_mass] += total
                continue
            shares = [model.add_variable(lb=0.0) for _ in able]
            for carrier, share in zip(able, shares, strict=True):
                amount[carrier.carrier_id, of_mass].append(share)
            model.add_linear_constraint(mathopt.LinearSum(shares) == mathopt.LinearSum(total))
    for row in frame.load_rows[trip]:
        parts = [
            part
            for carrier in frame.carriers[trip]
            if carrier.person_id == row.person_id
            and (row.in_sled if carrier.is_sled else row.in_pack)
            for part in amount[carrier.carrier_id, row.of_mass]
        ]
        load = mathopt.LinearSum([*parts, row.fixed / 1000])
        limit = relaxation.trip_peak[trip] if row.in_fraction else 1.0
        over: mathopt.Variable | float = 0.0
        if relaxation.excess is not None:
            over = model.add_variable(lb=0.0)
            relaxation.excess.append((row, over))
        model.add_linear_constraint(load <= row.cap / 1000 * limit + over)


def solve_relaxation(
    relaxation: Relaxation,
    *,
    seconds: float,
    gap: float,
    sum_of_trips: bool,
    peak_at_most: int,
    start: Rides | None = None,
) -> RelaxedPlan | None:
    """Least peak, or least sum of the trips' fractions under a given peak.

    `start` are rides of a plan to begin from, `gap` the relative distance to be content with.

    None when there is no plan (`RelaxedPlan.bound` would be beyond the grid) or no time; ask
    `is_possible` to tell which.
    """
    model = relaxation.model
    relaxation.peak.upper_bound = (peak_at_most + BOUND_TOLERANCE) / FRACTION_GRID
    if sum_of_trips:
        model.minimize(mathopt.LinearSum(relaxation.trip_peak))
    else:
        model.minimize(relaxation.peak)
    result = _run(relaxation, seconds=seconds, gap=gap, start=start)
    if not result.has_primal_feasible_solution():
        return None
    values = result.variable_values()
    best = result.termination.objective_bounds.dual_bound * FRACTION_GRID
    return RelaxedPlan(
        rides=_read_rides(relaxation, values),
        trip_fractions=tuple(
            math.ceil(values[z] * FRACTION_GRID - BOUND_TOLERANCE) for z in relaxation.trip_peak
        ),
        bound=max(0, math.ceil(best - BOUND_TOLERANCE)) if math.isfinite(best) else 0,
        proven=result.termination.reason == mathopt.TerminationReason.OPTIMAL,
    )


def least_sum_bound(relaxation: Relaxation, *, seconds: float, peak_at_most: int) -> int | None:
    """A bound on the sum of the trips' fractions under a peak, with divisible units [1/10,000]."""
    relaxation.peak.upper_bound = (peak_at_most + BOUND_TOLERANCE) / FRACTION_GRID
    relaxation.model.minimize(mathopt.LinearSum(relaxation.trip_peak))
    loose = [units for units in relaxation.rides.values() if not isinstance(units, int)]
    for units in loose:
        units.integer = False
    result = _run(relaxation, seconds=seconds, gap=1e-6, start=None)
    for units in loose:
        units.integer = True
    best = result.termination.objective_bounds.dual_bound * FRACTION_GRID
    return max(0, math.ceil(best - BOUND_TOLERANCE)) if math.isfinite(best) else None


def _run(
    relaxation: Relaxation, *, seconds: float, gap: float, start: Rides | None
) -> mathopt.SolveResult:
    hints = []
    if start is not None:
        known = {
            units: float(start.get(ride, 0))
            for ride, units in relaxation.rides.items()
            if not isinstance(units, int)
        }
        hints.append(mathopt.SolutionHint(variable_values=known))
    return mathopt.solve(
        relaxation.model,
        mathopt.SolverType.HIGHS,
        params=mathopt.SolveParameters(
            time_limit=dt.timedelta(seconds=max(seconds, 0.05) * (60 if relaxation.steady else 1)),
            node_limit=STEADY_NODES if relaxation.steady else None,
            relative_gap_tolerance=gap,
        ),
        model_params=mathopt.ModelSolveParameters(solution_hints=hints),
    )


def _read_rides(
    relaxation: Relaxation, values: dict[mathopt.Variable, float]
) -> dict[tuple[int, int], int]:
    rides = {
        ride: units if isinstance(units, int) else round(values[units])
        for ride, units in relaxation.rides.items()
    }
    return {ride: units for ride, units in rides.items() if units}


def least_mass_ascent(
    relaxation: Relaxation, *, seconds: float, trip_limits: list[int], start: Rides
) -> tuple[Rides, int] | None:
    """Rides with the least mass × height whose trips keep to their fractions, and a bound [g·m].

    Both are without the fixed part (water, lunch, sleds). None when time ran out.
    """
    frame = relaxation.frame
    relaxation.peak.upper_bound = 1.0
    for limit, peak in zip(trip_limits, relaxation.trip_peak, strict=True):
        peak.upper_bound = (limit + BOUND_TOLERANCE) / FRACTION_GRID
    fixed = 0
    terms = []
    for (cargo, trip), units in relaxation.rides.items():
        work = frame.weight(cargo, trip, of_mass=True) * ascent_m(frame, trip)
        if isinstance(units, int):
            fixed += work * units
        elif work:
            terms.append(work / 1e6 * units)
    relaxation.model.minimize(mathopt.LinearSum(terms))
    result = _run(relaxation, seconds=seconds, gap=1e-6, start=start)
    for peak in relaxation.trip_peak:
        peak.upper_bound = 1.0
    if not result.has_primal_feasible_solution():
        return None
    rides = _read_rides(relaxation, result.variable_values())
    bound = result.termination.objective_bounds.dual_bound
    return rides, fixed + max(0, math.floor(bound * 1e6 - 1) if math.isfinite(bound) else 0)


def least_excess(relaxation: Relaxation, *, seconds: float) -> list[tuple[LoadRow, float]] | None:
    """The loads that must pass their caps, by how much [kg or L], when each may.

    The total excess, as shares of the caps, is least. None when not even that helps. Units
    are divisible here, so the amounts are no more than what is really missing.
    """
    assert relaxation.excess is not None  # noqa: S101 (the caller built it so)
    if relaxation.impossible is not None:
        return None
    for units in relaxation.rides.values():
        if not isinstance(units, int):
            units.integer = False
    relaxation.model.minimize(
        mathopt.LinearSum(1000 / max(row.cap, 1) * over for row, over in relaxation.excess)
    )
    result = mathopt.solve(
        relaxation.model,
        mathopt.SolverType.HIGHS,
        params=mathopt.SolveParameters(time_limit=dt.timedelta(seconds=seconds)),
    )
    if not result.has_primal_feasible_solution():
        return None
    values = result.variable_values()
    return [(row, values[over]) for row, over in relaxation.excess if values[over] > 1e-6]


def least_shortage(relaxation: Relaxation, *, seconds: float) -> list[tuple[Row, float]] | None:
    """The rows that must fall short, by how much, when each may and loads are divisible.

    The number of units or the amount, as shares of what each row asks for, is least. None when
    not even that helps, or time ran out.
    """
    assert relaxation.short is not None  # noqa: S101 (the caller built it so)
    if relaxation.impossible is not None:
        return None
    relaxation.model.minimize(
        mathopt.LinearSum(
            1 / max(getattr(row, "at_least", 1), 1) * over for row, over in relaxation.short.items()
        )
    )
    result = _run(relaxation, seconds=seconds, gap=1e-3, start=None)
    if not result.has_primal_feasible_solution():
        return None
    values = result.variable_values()
    return [(row, values[over]) for row, over in relaxation.short.items() if values[over] > 1e-6]


def is_impossible(relaxation: Relaxation, *, seconds: float) -> bool:
    """Whether not even divisible loads can be carried: then no plan exists."""
    if relaxation.impossible is not None:
        return True
    relaxation.peak.upper_bound = 1.0
    relaxation.model.minimize(relaxation.peak)
    result = mathopt.solve(
        relaxation.model,
        mathopt.SolverType.HIGHS,
        params=mathopt.SolveParameters(time_limit=dt.timedelta(seconds=seconds)),
    )
    return bool(result.termination.reason == mathopt.TerminationReason.INFEASIBLE)
