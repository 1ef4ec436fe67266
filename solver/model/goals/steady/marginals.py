"""What one unit more or less with each person changes in swaps with the trips before and after."""

from __future__ import annotations

import numpy as np

from solver.model.goals.steady.expedition import Expedition
from solver.model.packing.trip_load import Floats, Ints


class Marginals:
    """For each piece of a trip what it adds where it comes (P, C) and where it leaves (P, C).

    On a trip next to one with as many or fewer such units, somebody's units that they have no
    longer are swaps; next to one with more, those that they have newly.
    """

    def __init__(self, expedition: Expedition, trip: int) -> None:
        """Work out all pieces of a trip."""
        self._expedition, self._trip = expedition, trip
        self._one = one = expedition.trips[trip]
        self.coming: Floats = np.zeros(one.load.able.shape)
        self.leaving: Floats = np.zeros(one.load.able.shape)
        self._unit_of: dict[int, str] = {}
        self._others: dict[str, list[tuple[Ints, float]]] = {}
        for unit_id, its in one.neighbours.items():
            self._unit_of |= dict.fromkeys(expedition.pieces[unit_id][trip].tolist(), unit_id)
            self._others[unit_id] = [
                (expedition.held_by(unit_id, other), float(weight)) for other, weight in its
            ]
            self._update(unit_id)

    def moved(self, piece: int) -> None:
        """Work out anew what depends on where a piece is."""
        unit_id = self._unit_of.get(piece)
        if unit_id is not None:
            self._update(unit_id)

    def _update(self, unit_id: str) -> None:
        pieces = self._expedition.pieces[unit_id][self._trip]
        here = self._expedition.held_by(unit_id, self._trip)
        coming, leaving = np.zeros(len(here)), np.zeros(len(here))
        for there, weight in self._others[unit_id]:
            sign = 1 if there.sum() <= here.sum() else -1
            lack = np.maximum(sign * (there - here), 0)
            coming += weight * (np.maximum(sign * (there - here - 1), 0) - lack)
            leaving += weight * (np.maximum(sign * (there - here + 1), 0) - lack)
        self.coming[pieces] = coming[self._one.person]
        self.leaving[pieces] = leaving[self._one.person]
