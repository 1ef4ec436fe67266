"""Longest-first packing: the heaviest piece first, each where the load grows least."""

from __future__ import annotations

import numpy as np

from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import Slack
from solver.model.packing.empty_trip import empty_trip
from solver.model.packing.trip_load import TOO_MUCH, TripLoad


def longest_first(load: TripLoad, *, all_rows: bool = False) -> bool:
    """Put the heaviest piece first, each where the fraction grows least; whether all went in.

    R. L. Graham, "Bounds on multiprocessing timing anomalies", SIAM J. Appl. Math. 17 (1969),
    with fractions of own caps for times. Pieces without a choice go first, those already put
    somewhere stay; a piece that fits nowhere is put anywhere, and the answer is False. With
    `all_rows`, volume counts like mass, which fills tight trips better.
    """
    choice = load.has_choice
    waiting = np.flatnonzero(load.where < 0)
    keys = (waiting, -load.volume[waiting], -load.mass[waiting], choice[waiting])
    fits = True
    levels = load.levels_of_next(all_rows=all_rows)
    for piece in waiting[np.lexsort(keys)].tolist():
        level = levels(piece)
        carrier = int(level.argmin())
        if not np.isfinite(level[carrier]):
            fits, carrier = False, int(load.able[piece].argmax())
        load.put(piece, carrier)
    return fits and load.peak() < TOO_MUCH


def packed_trip(frame: Frame, trip: int, riding: dict[int, int], slack: Slack) -> TripLoad:
    """A trip packed longest first by mass, and by all that is limited where that does not fit."""
    load = empty_trip(frame, trip, riding, slack)
    if longest_first(load):
        return load
    other = empty_trip(frame, trip, riding, slack)
    longest_first(other, all_rows=True)
    return other if other.levels().max() < load.levels().max() else load
