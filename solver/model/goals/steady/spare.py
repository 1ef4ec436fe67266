"""What weighs on whoever has the least cap, and that they get no more of it."""

from __future__ import annotations

import numpy as np

from solver.model.goals.steady.expedition import OneTrip
from solver.model.packing.trip_load import Bools


def spare_the_weakest(one: OneTrip) -> None:
    """Lower the limits of whoever has the least cap to the fullest that they have on the trip."""
    load, levels = one.load, one.load.levels()
    for person in np.unique(one.person[one.on_weak]):
        rows = np.unique(load.rows_of[one.person == person])
        counted = rows[load.scale[rows] > 0]
        most = np.ceil(levels[counted].max() / load.scale[counted]).astype(np.int64)
        one.most[counted] = np.minimum(one.most[counted], np.maximum(most, load.load[counted]))


def weighs_on_weakest(one: OneTrip) -> Bools:
    """The carriers that count in the fullest row of whoever has the least cap (C,).

    Where a sled is fuller than the pack, only what is on the sled makes the share greater.
    """
    levels, weighs = one.load.levels(), np.zeros(len(one.person), dtype=bool)
    for person in np.unique(one.person[one.on_weak]):
        mine = one.person == person
        rows = np.unique(one.load.rows_of[mine])
        weighs |= mine & one.rows[:, rows[levels[rows].argmax()]]
    return weighs
