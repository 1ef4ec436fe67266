"""How many preferences a trip does not meet."""

from __future__ import annotations

import numpy as np

from solver.model.goals.steady.expedition import OneTrip


def count_broken(one: OneTrip) -> int:
    """Soft constraints not met, loads with fuel and food, and pieces away from their keeper [1]."""
    violations, where = one.violations, one.load.where
    over = (violations.value > 0).astype(np.float64) @ violations.of_constraint > 0
    away = one.away[np.arange(len(where)), where]
    return int(over.sum()) + int((one.kinds_in.min(axis=0) > 0).sum()) + int(away.sum())
