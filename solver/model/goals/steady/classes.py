"""Some kinds of things at a time are dealt out again among all people on all trips.

Pairs on all trips and all people on some trips find nothing more where one swap less would need
three people to change what they keep on the whole way. What swaps now is free each time, and with
it a part of all else, another part each time.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from solver.model.goals.steady.expedition import Expedition
from solver.model.goals.steady.window import deal_window
from solver.model.packing.trip_load import Bools
from solver.model.work import Work

_PARTS = 4
"""Into how many parts all cargoes are cut, of which one is free at a time [1]."""

_IN_VAIN = 3
"""After how many windows without a change it ends [1]."""


def deal_classes(expedition: Expedition, work: Work, *, seconds: float, most: int) -> None:
    """Deal out parts of the cargoes again at most so often, as long as that changes anything."""
    order = cargoes_heavy_first(expedition)
    in_vain = 0
    for turn in range(most):
        free = _swapping(expedition)
        if not free or in_vain == _IN_VAIN or work.is_over():
            return
        for number, cargo in enumerate(one for one in order if one not in free):
            if (number + turn) % _PARTS == 0:
                free.add(cargo)
        dealt = deal_window(expedition, _pieces(expedition, free), work, seconds=seconds)
        in_vain = 0 if dealt.changed else in_vain + 1


def cargoes_heavy_first(expedition: Expedition) -> list[int]:
    """The cargoes that can change hands, the heaviest first."""
    mass: dict[int, int] = {}
    for on_trips in expedition.pieces.values():
        for trip, its in on_trips.items():
            load = expedition.trips[trip].load
            for cargo, mass_g in zip(
                load.cargo[its].tolist(), load.mass[its].tolist(), strict=True
            ):
                mass[cargo] = max(mass.get(cargo, 0), mass_g)
    return sorted(mass, key=lambda cargo: (-mass[cargo], cargo))


def _swapping(expedition: Expedition) -> set[int]:
    """The cargoes of which any unit is swapped."""
    found: set[int] = set()
    for unit_id, on_trips in expedition.pieces.items():
        for earlier, later in pairwise(sorted(on_trips)):
            more = expedition.held_by(unit_id, later) - expedition.held_by(unit_id, earlier)
            if (more > 0).any() and (more < 0).any():
                for trip, its in on_trips.items():
                    found.update(expedition.trips[trip].load.cargo[its].tolist())
    return found


def _pieces(expedition: Expedition, cargoes: set[int]) -> dict[int, Bools]:
    """The pieces of some cargoes that have a choice, by trip (P,)."""
    return {
        trip: np.isin(one.load.cargo, sorted(cargoes)) & one.load.has_choice
        for trip, one in enumerate(expedition.trips)
    }
