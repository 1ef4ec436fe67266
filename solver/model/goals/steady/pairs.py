"""Two people at a time share out again what they have: those who swap most go first.

Where two have much, only a part of it is free at a time: what they swap, and another part of all
else each time. A small window is proven or improved in the time in which a large one is written.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import combinations, pairwise

import numpy as np

from solver.model.goals.steady.classes import cargoes_heavy_first
from solver.model.goals.steady.expedition import Expedition
from solver.model.goals.steady.window import Dealt, deal_window, held_by
from solver.model.packing.trip_load import Bools, Floats, Ints
from solver.model.work import Work

_TRIES = 2
"""How often a pair is tried in vain while neither has changed anything with others [1]."""

Pair = tuple[int, int]


def deal_pairs(
    expedition: Expedition,
    trips: Sequence[int],
    work: Work,
    *,
    seconds: float,
    most: int,
    most_in_vain: int,
    columns: int,
    only_swapping: bool = False,
) -> None:
    """Deal again for two people at a time, at most so often, as long as anything is swapped.

    It ends after so many windows in vain, and not before one for each person. About so many
    `columns` are free at a time beside what the two swap. `only_swapping` leaves out trips next to
    which they swap nothing.
    """
    pairs = _Pairs(expedition, columns)
    in_vain = 0
    for _ in range(most):
        pair = pairs.worst()
        if pair is None or in_vain >= max(most_in_vain, expedition.people) or work.is_over():
            return
        chosen = _swapping_at(expedition, pair) if only_swapping else trips
        free, parts = pairs.free(pair, chosen)
        dealt = deal_window(expedition, free, work, seconds=seconds, people=set(pair))
        pairs.note(pair, parts, dealt)
        in_vain = 0 if dealt.changed else in_vain + 1


@dataclass(slots=True)
class _Pairs:
    """Which pairs were tried how often in vain, and which part of their things comes next."""

    expedition: Expedition
    columns: int
    place: dict[int, int] = field(init=False)
    tried: Counter[Pair] = field(default_factory=Counter)
    turns: Counter[Pair] = field(default_factory=Counter)
    done: set[Pair] = field(default_factory=set)

    def __post_init__(self) -> None:
        order = cargoes_heavy_first(self.expedition)
        self.place = {cargo: place for place, cargo in enumerate(order)}

    def worst(self) -> Pair | None:
        """The pair that swaps most, among those where a try is worth it."""
        swapped = swapped_between(self.expedition)
        worth = {
            pair: float(swapped[pair]) / (1 + self.tried[pair]) ** 2
            for pair in combinations(range(self.expedition.people), 2)
            if swapped[pair] and pair not in self.done
        }
        return min(worth, key=lambda pair: (-worth[pair], pair)) if worth else None

    def free(self, pair: Pair, trips: Sequence[int]) -> tuple[dict[int, Bools], int]:
        """The pieces (P,) by trip that are free this time, and of how many parts they are one."""
        held = {trip: held_by(self.expedition, trip, set(pair)) for trip in trips}
        cargo = {trip: self.expedition.trips[trip].load.cargo for trip in trips}
        columns = sum(2 * len(np.unique(cargo[trip][its])) for trip, its in held.items())
        parts, turn = max(1, math.ceil(columns / self.columns)), self.turns[pair]
        self.turns[pair] += 1
        if parts == 1:
            return held, parts
        chosen = _swapped_cargoes(self.expedition, pair) | {
            thing for thing, place in self.place.items() if (place + turn) % parts == 0
        }
        return {
            trip: its & np.isin(cargo[trip], sorted(chosen)) for trip, its in held.items()
        }, parts

    def note(self, pair: Pair, parts: int, dealt: Dealt) -> None:
        """Remember what came of a window; others with one of the two are worth a try again."""
        if dealt.changed and parts > 1:
            self.tried[pair] = 0
        else:
            self.tried[pair] += 1
        settled = dealt.proven and parts == 1
        if settled or (not dealt.changed and self.tried[pair] >= max(_TRIES, parts)):
            self.done.add(pair)
        if dealt.changed:
            for other in combinations(range(self.expedition.people), 2):
                if other != pair and set(other) & set(pair):
                    self.tried[other] = max(0, self.tried[other] - 1)
                    self.done.discard(other)


def swapped_between(expedition: Expedition) -> Floats:
    """How much may go from one person to another (people, people), weighted and symmetric."""
    swapped = np.zeros((expedition.people, expedition.people))
    for unit_id, (earlier, later), more in _changes(expedition):
        gain, lack = np.maximum(more, 0), np.maximum(-more, 0)
        either = np.minimum(lack[:, None], gain)
        swapped += expedition.weight(unit_id, earlier, later) * (either + either.T)
    return swapped


def _changes(expedition: Expedition) -> Iterator[tuple[str, tuple[int, int], Ints]]:
    """Each unit and two trips between which some gain and some give up, and who gains (people,)."""
    begins, place = [0], 0
    for one in expedition.trips:
        place += len(one.load.where)
        begins.append(place)
    whose = np.concatenate([one.person[one.load.where] for one in expedition.trips])
    rows = 0
    pieces: list[tuple[Ints, int]] = []
    links: list[tuple[str, tuple[int, int], int]] = []
    for unit_id, on_trips in expedition.pieces.items():
        order = sorted(on_trips)
        pieces.extend((begins[trip] + on_trips[trip], rows + n) for n, trip in enumerate(order))
        links.extend((unit_id, (a, b), rows + n) for n, (a, b) in enumerate(pairwise(order)))
        rows += len(order)
    held = np.zeros((rows, expedition.people), dtype=np.int64)
    if not links:
        return
    at = np.concatenate([its for its, _ in pieces])
    of = np.repeat([row for _, row in pieces], [len(its) for its, _ in pieces])
    np.add.at(held, (of, whose[at]), 1)
    earlier = np.array([row for _, _, row in links])
    more = held[earlier + 1] - held[earlier]
    for number in np.flatnonzero((more.min(axis=1) < 0) & (more.max(axis=1) > 0)).tolist():
        unit_id, trips, _ = links[number]
        yield unit_id, trips, more[number]


def _exchanging(expedition: Expedition, pair: Pair) -> Iterator[tuple[str, tuple[int, int]]]:
    """Each unit and two trips between which one of a pair gains and the other gives up."""
    for unit_id, trips, more in _changes(expedition):
        one, other = more[list(pair)].tolist()
        if one * other < 0:
            yield unit_id, trips


def _swapping_at(expedition: Expedition, pair: Pair) -> list[int]:
    """Trips before or after which the two of a pair swap something."""
    return sorted({trip for _, trips in _exchanging(expedition, pair) for trip in trips})


def _swapped_cargoes(expedition: Expedition, pair: Pair) -> set[int]:
    """The cargoes of which the two of a pair swap a unit anywhere."""
    pieces: Mapping[str, Mapping[int, Ints]] = expedition.pieces
    return {
        cargo
        for unit_id, _ in _exchanging(expedition, pair)
        for trip, its in pieces[unit_id].items()
        for cargo in expedition.trips[trip].load.cargo[its].tolist()
    }
