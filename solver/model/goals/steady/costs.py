"""What loads cost beside swaps: preferences broken, and rows above what they may hold."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from solver.model.goals.steady.expedition import Expedition
from solver.model.goals.violations import Violations
from solver.model.packing.trip_load import Floats, Ints


@dataclass(frozen=True, slots=True)
class Prices:
    """What things cost, in weighted swaps.

    `broken` is a preference that is not met, `gram` each gram that it lacks and `mixed` each unit
    that is in the way of fuel and food apart: they show the way to meeting it.
    """

    broken: float = 10.0
    gram: float = 0.0003
    mixed: float = 0.5


def count_swaps(expedition: Expedition) -> int:
    """Swaps, each times its weight [1]."""
    total = 0
    for unit_id, on_trips in expedition.pieces.items():
        for earlier, later in pairwise(sorted(on_trips)):
            weight = dict(expedition.trips[earlier].neighbours[unit_id])[later]
            more = expedition.held_by(unit_id, later) - expedition.held_by(unit_id, earlier)
            total += weight * min(int(np.maximum(more, 0).sum()), int(np.maximum(-more, 0).sum()))
    return total


def broken_cost(violations: Violations, value: Ints, prices: Prices) -> Floats:
    """What preferences cost at some sums (..., N)."""
    over = np.maximum(value, 0)
    count = ((over > 0).astype(np.float64) @ violations.of_constraint > 0).sum(axis=-1)
    cost: Floats = prices.broken * count + prices.gram * (over / violations.one_g).sum(axis=-1)
    return cost


def mixed_cost(kinds: Ints, prices: Prices) -> Floats:
    """What loads cost that have so many units of fuel and of food (2, ...)."""
    fewer = kinds.min(axis=0)
    cost: Floats = prices.broken * (fewer > 0) + prices.mixed * fewer
    return cost
