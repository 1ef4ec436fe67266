"""Two people at a time share out again what they have: those who swap most go first."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from itertools import combinations, pairwise

import numpy as np

from solver.model.goals.steady.expedition import Expedition
from solver.model.goals.steady.window import deal_window, held_by
from solver.model.packing.trip_load import Floats
from solver.model.work import Work

_TRIES = 2
"""How often a pair is tried while neither has changed anything with others [1]."""

Pair = tuple[int, int]


def deal_pairs(
    expedition: Expedition,
    trips: Sequence[int],
    work: Work,
    *,
    seconds: float,
    most: int,
    only_swapping: bool = False,
) -> None:
    """Deal again for two people at a time, at most so often, as long as anything is swapped.

    `only_swapping` leaves out trips next to which the two swap nothing.
    """
    pairs = list(combinations(range(expedition.people), 2))
    tried: Counter[Pair] = Counter()
    for _ in range(most):
        swapped = swapped_between(expedition)
        worth = {
            pair: float(swapped[pair]) / (1 + tried[pair]) ** 2
            for pair in pairs
            if tried[pair] < _TRIES and swapped[pair]
        }
        if not worth or work.is_over():
            return
        pair = min(worth, key=lambda pair: (-worth[pair], pair))
        tried[pair] += 1
        chosen = _swapping_at(expedition, pair) if only_swapping else trips
        free = {trip: held_by(expedition, trip, set(pair)) for trip in chosen}
        if deal_window(expedition, free, work, seconds=seconds, people=set(pair)):
            for other in tried:
                if other != pair and set(other) & set(pair):
                    tried[other] = max(0, tried[other] - 1)


def swapped_between(expedition: Expedition) -> Floats:
    """How much may go from one person to another (people, people), weighted and symmetric."""
    swapped = np.zeros((expedition.people, expedition.people))
    for unit_id, on_trips in expedition.pieces.items():
        for earlier, later in pairwise(sorted(on_trips)):
            more = expedition.held_by(unit_id, later) - expedition.held_by(unit_id, earlier)
            gain, lack = np.maximum(more, 0), np.maximum(-more, 0)
            if gain.any() and lack.any():
                either = np.minimum(lack[:, None], gain)
                weight = expedition.weight(unit_id, earlier, later)
                swapped += weight * (either + either.T)
    return swapped


def _swapping_at(expedition: Expedition, pair: Pair) -> list[int]:
    """Trips before or after which the two of a pair swap something."""
    theirs, trips = list(pair), set[int]()
    for unit_id, on_trips in expedition.pieces.items():
        for earlier, later in pairwise(sorted(on_trips)):
            more = expedition.held_by(unit_id, later) - expedition.held_by(unit_id, earlier)
            if (more[theirs] > 0).any() and (more[theirs] < 0).any():
                trips |= {earlier, later}
    return sorted(trips)
