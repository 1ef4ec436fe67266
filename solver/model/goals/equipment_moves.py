"""Equipment moved out of the loads where the soft constraints of a trip do not want it."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from solver.model.goals.repair import repair
from solver.model.goals.soft_constraint import SoftConstraint
from solver.model.packing.swaps import lower_peak
from solver.model.packing.trip_load import TripLoad
from solver.model.work import Work


def bar_equipment(load: TripLoad, of_trip: Sequence[SoftConstraint]) -> None:
    """Bar equipment from the loads where these soft constraints do not want it."""
    for constraint in of_trip:
        if constraint.equipment:
            is_equipment = np.isin(load.cargo, sorted(constraint.equipment))
            for part in constraint.inequalities:
                load.able[:, np.isin(load.carriers, part.equipment_in)] &= ~is_equipment[:, None]


def bar_and_repair(
    load: TripLoad, of_trip: Sequence[SoftConstraint], limit: int, work: Work
) -> int:
    """Move equipment out of where it should not be, even out the rest; count what is violated [1].

    Where that fails the answer is one more than there are constraints: too many to be better.
    """
    bar_equipment(load, of_trip)
    away = ~load.able[np.arange(len(load.where)), load.where]
    if not load.able.any(axis=1).all():
        return len(of_trip) + 1
    for piece in np.flatnonzero(away).tolist():
        level = load.levels_with(piece)
        if not np.isfinite(level).any():
            return len(of_trip) + 1
        load.put(piece, int(level.argmin()))
    if lower_peak(load, target=limit, most_moves=150) > limit:
        return len(of_trip) + 1
    return repair(load, of_trip, limit=limit, work=work)
