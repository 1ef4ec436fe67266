"""The weak are favoured: what whoever has the least cap need not carry goes to others.

A last pass over finished loads. What costs nothing goes first: each heavy unit for its whole way,
then on each trip; preferences and swaps stay as they are. If the weakest still have a greater mean
share than everybody, more goes at the price of swaps, the cheapest first, until that is enough.
They share out again what they and one other person have, and then single units go. Last, pairs of
people share out again what they swap now. No trip passes its limit.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial

import numpy as np

from solver.model.assignment.draft import Draft
from solver.model.formulation.frame import Frame
from solver.model.goals.soft_constraint import SoftConstraints
from solver.model.goals.steady.beside import beside, swap_cost
from solver.model.goals.steady.costs import Prices
from solver.model.goals.steady.expedition import Expedition, OneTrip, read_expedition
from solver.model.goals.steady.pairs import Pair, deal_pairs
from solver.model.goals.steady.paths import Way, cheaper_way, heavy_first, room_cost, ways
from solver.model.goals.steady.shares import above_others, least_share
from solver.model.goals.steady.spare import spare_the_weakest, weighs_on_weakest
from solver.model.goals.steady.weakest import weakest
from solver.model.goals.steady.window import deal_window, held_by
from solver.model.packing.trip_load import Floats
from solver.model.work import Work

_FOR_NOTHING = 0.001
"""What a kilogram with the weakest costs on a trip at first: all together less than one swap
[weighted swaps]."""

_ROUNDS = 2
"""How often every unit is looked at [1]."""

_OF_PAIRS, _OF_UNITS = (1.0, 4.0), (2.0, 4.0)
"""What a kilogram costs in turn while the weakest have more than others, for pairs of people and
for single units [weighted swaps]."""

_SECONDS, _MOST_COLUMNS = 0.4, 1_500
"""Work for two people [s of a steady run], and about how many columns they share out at most [1].

With more nothing was found in that time.
"""

_MOST_PAIRS, _IN_VAIN = 20, 8
"""How many pairs share out again at last, and after how many in vain that ends [1]."""

_LESS = 1e-9
"""By how much a move must be better [weighted swaps]."""


def relieve(
    frame: Frame,
    draft: Draft,
    constraints: SoftConstraints,
    limits: tuple[int, ...],
    work: Work,
    *,
    pay: bool,
) -> Draft:
    """The draft with less on the weakest, as far as others have room under their trips' limits.

    Without `pay` nothing gets worse for it. With it swaps may, while the weakest have more.
    """
    if not weakest(frame.world.problem):
        return draft
    expedition = read_expedition(frame, draft, constraints, limits)
    relief = _Relief(expedition, work)
    if not pay:
        for _ in range(_ROUNDS):
            relief.go_on(_FOR_NOTHING)
        return expedition.draft()
    before = above_others(expedition)
    if before <= 0:
        return draft
    relief.pay()
    if above_others(expedition) >= before:
        return draft
    for one in expedition.trips:
        spare_the_weakest(one)
    deal_pairs(
        expedition,
        range(len(expedition.trips)),
        work,
        seconds=_SECONDS,
        most=_MOST_PAIRS,
        most_in_vain=_IN_VAIN,
        columns=_MOST_COLUMNS,
        only_swapping=True,
    )
    return expedition.draft()


@dataclass(frozen=True, slots=True)
class _Relief:
    """All trips, and the work that may be spent on them."""

    expedition: Expedition
    work: Work

    def is_enough(self) -> bool:
        """Whether the weakest have no greater mean share than everybody."""
        return above_others(self.expedition) <= 0

    def pay(self) -> None:
        """Give away at the price of swaps until it is enough."""
        trips = range(len(self.expedition.trips))
        for price in _OF_PAIRS:
            for pair in self._pairs():
                if self.is_enough() or self.work.is_over():
                    return
                free = {trip: held_by(self.expedition, trip, set(pair)) for trip in trips}
                if 2 * sum(int(its.sum()) for its in free.values()) <= _MOST_COLUMNS:
                    deal_window(
                        self.expedition,
                        free,
                        self.work,
                        seconds=_SECONDS,
                        people=set(pair),
                        kilo=price,
                    )
        for price in _OF_UNITS:
            if not self.is_enough():
                self.go_on(price, self.is_enough)

    def _pairs(self) -> Iterator[Pair]:
        """Each of the weakest with each other person."""
        weak = {int(p) for one in self.expedition.trips for p in one.person[one.on_weak]}
        others = [p for p in range(self.expedition.people) if p not in weak]
        return ((one, other) for one in sorted(weak) for other in others)

    def go_on(self, price: float, is_enough: Callable[[], bool] = lambda: False) -> None:
        """Give away what saves more than it costs at a price of a kilogram on a trip."""
        for unit_id in heavy_first(self.expedition):
            if self.work.is_over():
                return
            if unit_id in self.expedition.bundles:
                continue
            for way in ways(self.expedition, unit_id):
                if self._give_way(unit_id, way, price) and is_enough():
                    return
        for trip in range(len(self.expedition.trips)):
            if self.work.is_over() or (self._give_on(trip, price, is_enough) and is_enough()):
                return

    def _give_way(self, unit_id: str, way: Way, price: float) -> bool:
        """Give a unit to others for its whole way, where it is with the weakest on some trip."""
        carried = ((self.expedition.trips[trip], piece) for trip, piece in way)
        if not any(one.on_weak[one.load.where[piece]] for one, piece in carried):
            return False
        cost_of = partial(_cost, price=price)
        return cheaper_way(self.expedition, unit_id, way, cost_of, less=_LESS)

    def _give_on(self, trip: int, price: float, is_enough: Callable[[], bool]) -> bool:
        """Give the weakest's units to others on one trip; whether any went."""
        one, sides, changed = self.expedition.trips[trip], beside(self.expedition, trip), False
        load = one.load
        bundled = np.isin(np.arange(len(load.where)), self._bundled(trip))
        pieces = np.flatnonzero(one.on_weak[load.where] & load.has_choice & ~bundled)
        for piece in pieces[np.argsort(-load.mass[pieces], kind="stable")].tolist():
            home = int(load.where[piece])
            cost = _cost(one, piece, price) + swap_cost(one, sides, piece)
            best = least_share(one, cost)
            if cost[best] < cost[home] - _LESS:
                sides.put(piece, int(one.person[home]), int(one.person[best]))
                one.put(piece, best)
                changed = True
                if is_enough():
                    break
        return changed

    def _bundled(self, trip: int) -> list[int]:
        of_trip = (self.expedition.pieces.get(one, {}) for one in self.expedition.bundles)
        return [int(piece) for pieces in of_trip for piece in pieces.get(trip, ())]


def _cost(one: OneTrip, piece: int, price: float) -> Floats:
    """What a piece costs in each carrier (C,): preferences, and its mass with the weakest."""
    on_weak = price * float(one.load.mass[piece]) / 1000 * weighs_on_weakest(one)
    cost: Floats = room_cost(one, piece, Prices()) + on_weak
    return cost
