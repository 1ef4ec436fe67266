"""What sets a plan's peak, and a bound on the peak with more room under some caps.

The bound takes room as an amount beside cap × fraction, where a larger cap would give only its
fraction of it: it is never above the bound with the larger cap. So where it stays at today's peak,
no plan with the larger cap has a lower one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from solver.model.formulation.frame import Frame
from solver.model.infeasible.cap_amounts import Growth
from solver.model.rows import LoadRow
from solver.model.solvers.relaxation_question import effort_of
from solver.model.solvers.relaxation_rows import build_relaxation
from solver.plan import Load, Plan
from solver.quantities import FRACTION_GRID, fraction_up

_SECONDS = 10.0
"""Time for one bound [s]."""


@dataclass(frozen=True, slots=True)
class FullRow:
    """A cap with what a plan puts under it [g], and the share that it comes to [1/10,000]."""

    row: LoadRow
    load: int
    fraction: int


def fullest_rows(frame: Frame, plan: Plan) -> list[FullRow]:
    """The caps that a plan fills most, those of the peak first."""
    found = []
    for rows, trip in zip(frame.load_rows, plan.trips, strict=True):
        loads = {load.person_id: load for load in trip.loads}
        for row in rows:
            if row.in_fraction and row.cap:
                load = row.fixed + _stowed(loads[row.person_id], row)
                found.append(FullRow(row, load, fraction_up(load_g=load, cap_g=row.cap)))
    return sorted(found, key=lambda full: -full.fraction)


def _stowed(load: Load, row: LoadRow) -> int:
    lines = (load.pack if row.in_pack else ()) + (load.sled if row.in_sled else ())
    return sum(line.count * line.mass_g for line in lines)


class PeakRoom:
    """The relaxation in which some caps may be passed by what a change gives them."""

    def __init__(self, frame: Frame, growths: Sequence[Growth]) -> None:
        self._relaxation = build_relaxation(frame, with_excess=True)
        self._growths = growths
        rows = [row for rows in frame.load_rows for row in rows]
        self._position_of = {row: position for position, row in enumerate(rows)}
        self._costs = np.zeros(self._relaxation.program.columns)
        self._costs[self._relaxation.peak] = 1.0

    def bound(self, number: int, amount: int) -> int:
        """What no peak is below with so much [g or mL] of one change [1/10,000]; 0 if unknown."""
        simplex, growth = self._relaxation.simplex, self._growths[number]
        for row, over in self._relaxation.excess or ():
            simplex.limit(over, growth.get(self._position_of[row], 0.0) * amount / 1000)
        relaxed = simplex.least(self._costs, effort_of(self._relaxation, _SECONDS))
        if not np.isfinite(relaxed.bound):
            return 0
        return max(0, int(np.ceil(relaxed.bound * FRACTION_GRID)))
