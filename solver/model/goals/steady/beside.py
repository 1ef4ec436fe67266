"""What a trip's units swap beside the trips before and after it, whoever of its people has them.

Between two trips people keep Σ min(units before, units after) of a unit, and of the fewer units all
else is swapped. So what one more or one less counts with a person does not depend on the others.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from solver.model.goals.steady.expedition import Expedition, OneTrip
from solver.model.packing.trip_load import Floats, Ints


@dataclass(slots=True)
class Beside:
    """U units on a trip among K people, and their links to L = 2 trips beside it.

    `unit` (P,) is each piece's unit, U where it has no link. `count` (U + 1, K) is who has how
    many; `held` (L, U + 1, K) who has how many on each trip beside, `weight` (L, U + 1) what a
    swap between counts, `fewer` (L, U + 1) how many ride at least on both.
    """

    unit: Ints
    count: Ints
    held: Ints
    weight: Ints
    fewer: Ints

    def more(self) -> Floats:
        """What one unit more costs with each person (U + 1, K), never above 0."""
        more: Floats = -(self.weight[:, :, None] * (self.count < self.held)).sum(axis=0)
        return more

    def less(self) -> Floats:
        """What one unit less costs with each person who has any (U + 1, K)."""
        less: Floats = (self.weight[:, :, None] * (self.count <= self.held)).sum(axis=0)
        return less

    def swaps(self) -> int:
        """Weighted swaps on both sides [1]."""
        kept = np.minimum(self.count, self.held).sum(axis=2)
        return int((self.weight * (self.fewer - kept)).sum())

    def least(self) -> int:
        """Weighted swaps if every unit could ride with anybody [1]."""
        both = self.held.min(axis=0)
        gains = [(self.weight.sum(axis=0), both.sum(axis=1))]
        gains += [
            (weight, (held - both).sum(axis=1))
            for weight, held in zip(self.weight, self.held, strict=True)
        ]
        left, kept = self.count.sum(axis=1), np.zeros(len(self.count), dtype=np.int64)
        heavier = self.weight[0] >= self.weight[1]
        first, second = (
            tuple(np.where(heavier, gains[a][part], gains[b][part]) for part in (0, 1))
            for a, b in ((1, 2), (2, 1))
        )
        for weight, units in (gains[0], first, second):
            taken = np.minimum(left, units)
            kept += weight * taken
            left = left - taken
        return int((self.weight * self.fewer).sum() - kept.sum())

    def put(self, piece: int, before: int, after: int) -> None:
        """Count a piece with another person."""
        self.count[self.unit[piece], before] -= 1
        self.count[self.unit[piece], after] += 1


def beside(expedition: Expedition, trip: int) -> Beside:
    """A trip's units as they ride there and on the trips beside it."""
    one = expedition.trips[trip]
    linked = [unit_id for unit_id, its in expedition.pieces.items() if trip in its and len(its) > 1]
    size = len(linked) + 1
    unit = np.full(len(one.load.cargo), len(linked), dtype=np.int64)
    count = np.zeros((size, expedition.people), dtype=np.int64)
    held = np.zeros((2, size, expedition.people), dtype=np.int64)
    weight = np.zeros((2, size), dtype=np.int64)
    fewer = np.zeros((2, size), dtype=np.int64)
    for number, unit_id in enumerate(linked):
        on_trips = expedition.pieces[unit_id]
        unit[on_trips[trip]] = number
        for earlier, later in pairwise(sorted(on_trips)):
            if trip in (earlier, later):
                side, other = (0, earlier) if later == trip else (1, later)
                held[side, number] = expedition.held_by(unit_id, other)
                weight[side, number] = expedition.weight(unit_id, earlier, later)
                fewer[side, number] = min(len(on_trips[earlier]), len(on_trips[later]))
    np.add.at(count, (unit, one.person[one.load.where]), 1)
    return Beside(unit, count, held, weight, fewer)


def swap_cost(one: OneTrip, sides: Beside, piece: int) -> Floats:
    """What swaps cost more with a piece in each carrier instead of its home (C,)."""
    home, unit = int(one.load.where[piece]), sides.unit[piece]
    count, held, weight = sides.count[unit], sides.held[:, unit], sides.weight[:, unit]
    lost = float(weight @ (count[one.person[home]] <= held[:, one.person[home]]))
    cost: Floats = (lost - weight @ (count < held).astype(np.float64))[one.person]
    cost[one.person == one.person[home]] = 0.0
    return cost
