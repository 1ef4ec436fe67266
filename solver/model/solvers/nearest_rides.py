"""Rides as near to those of a former plan as a peak allows, with everybody's loads as amounts."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from solver.model.formulation.former import Former
from solver.model.formulation.frame import Frame
from solver.model.solvers.relaxation import build_relaxation
from solver.model.solvers.relaxation_columns import Relaxation
from solver.model.solvers.relaxation_question import limit_peak, relax_and_fix_rides
from solver.outcome import Limits

Rides = dict[tuple[int, int], int]


def nearest_rides(
    frame: Frame,
    former: Former,
    limits: Limits,
    *,
    peak_at_most: int,
    seconds: float,
    should_stop: Callable[[], bool],
) -> Rides | None:
    """Rides under a peak [1/10,000] that add the fewest units to trips; None where none are found.

    A unit that rode on a trip before costs nothing there. None leaves the caller with other rides.
    """
    relaxation = build_relaxation(
        frame, steady=not limits.racing, seed=limits.seed, should_stop=should_stop
    )
    if relaxation.impossible is not None:
        return None
    price = _more_than_before(relaxation, former)
    costs = np.zeros(relaxation.program.columns)
    for column, cost in price.items():
        costs[column] = cost
    limit_peak(relaxation, peak_at_most)
    least = relax_and_fix_rides(relaxation, costs, seconds=seconds, gap=1e-3, fully=False)
    if least.values is None:
        return None
    chosen = {ride: round(least.values[column]) for ride, column in relaxation.rides.items()}
    rides = {ride: units for ride, units in (relaxation.settled | chosen).items() if units}
    return dict(sorted(rides.items()))


def _more_than_before(relaxation: Relaxation, former: Former) -> dict[int, float]:
    """Columns and costs of what rides beyond what rode before, written into the relaxation."""
    frame, writer = relaxation.frame, relaxation.writer
    by_unit: dict[tuple[str, int], list[int]] = {}
    for (cargo, trip), column in relaxation.rides.items():
        by_unit.setdefault((frame.world.cargo[cargo].unit_id, trip), []).append(column)
    settled: dict[tuple[str, int], int] = {}
    for (cargo, trip), units in relaxation.settled.items():
        key = frame.world.cargo[cargo].unit_id, trip
        settled[key] = settled.get(key, 0) + units
    before = [former.rides(trip) for trip in range(len(former.had))]
    price = {}
    for (unit_id, trip), columns in by_unit.items():
        rode = max(0, before[trip][unit_id] - settled.get((unit_id, trip), 0))
        more = writer.column()
        writer.row([(more, 1.0), *((column, -1.0) for column in columns)], lower=-float(rode))
        price[more] = 1.0
    return price
