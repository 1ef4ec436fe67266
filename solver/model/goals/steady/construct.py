"""Loads dealt out from nothing: heavy units first, each for its whole way at once.

Fullness costs little at first and steeply more above what a trip may hold, so that light units
find room with whoever had them before. Trips that end above their limit are for later repair.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from solver.model.goals.steady.costs import Prices
from solver.model.goals.steady.expedition import Expedition, OneTrip
from solver.model.goals.steady.paths import cheapest, heavy_first, mixing_cost, ways_by_number
from solver.model.packing.trip_load import Floats

FULLNESS = 0.5
"""What a full load costs, in weighted swaps; a half full one costs a quarter of it."""

_OVERFULL = 50.0
_MORE_OVERFULL = 200.0
_BROKEN_SPREAD = 1e6


def construct(expedition: Expedition, prices: Prices, is_over: Callable[[], bool]) -> bool:
    """Take out every piece with a choice and deal all out anew; False where time ran out."""
    for one in expedition.trips:
        for piece in np.flatnonzero(one.load.has_choice).tolist():
            one.take_out(piece)
    for unit_id in heavy_first(expedition):
        if is_over():
            return False
        for way in ways_by_number(expedition, unit_id):
            costs = [_cost(expedition.trips[trip], piece, prices) for trip, piece in way]
            _, path = cheapest(expedition, unit_id, way, costs)
            for (trip, piece), carrier in zip(way, path, strict=True):
                expedition.trips[trip].put(piece, carrier)
    for one in expedition.trips:
        for piece in np.flatnonzero(one.load.where < 0).tolist():
            one.put(piece, int(_cost(one, piece, prices).argmin()))
    return True


def _cost(one: OneTrip, piece: int, prices: Prices) -> Floats:
    """What a piece costs in each carrier (C,): how full it gets, and fuel beside food."""
    load, rows = one.load, one.load.rows_of
    more = one.amount[piece][rows]
    full = np.where(more > 0, (load.load[rows] + more) / np.maximum(one.most[rows], 1), 0.0)
    fullest = full.max(axis=1)
    cost = FULLNESS * fullest**2
    cost += np.where(fullest > 1, _OVERFULL + _MORE_OVERFULL * (fullest - 1), 0.0)
    for row in np.flatnonzero(load.member[:, piece]):
        too_many = load.counted[row] + load.member[row, piece] > load.most[row]
        cost += np.where(too_many, _BROKEN_SPREAD, 0.0)
    if one.kinds[:, piece].any():
        cost += mixing_cost(one, piece, prices)
    cost += prices.broken * one.away[piece]
    return np.where(load.able[piece], cost, np.inf)
