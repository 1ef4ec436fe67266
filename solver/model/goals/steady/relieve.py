"""The weak are favoured: what whoever has the least cap need not carry goes to others.

A last pass over finished loads, heavy units first, each for its whole way at once. It gives nothing
up: no trip passes its limit, and neither preferences nor swaps get worse.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

import numpy as np

from solver.model.assignment.draft import Draft
from solver.model.formulation.frame import Frame
from solver.model.goals.soft_constraint import SoftConstraints
from solver.model.goals.steady.beside import beside, swap_cost
from solver.model.goals.steady.costs import Prices
from solver.model.goals.steady.expedition import Expedition, read_expedition
from solver.model.goals.steady.paths import Way, change_cost, cheapest, heavy_first, room_cost, ways
from solver.model.goals.steady.weakest import weakest
from solver.model.packing.trip_load import Floats

_A_KILO = 0.001
"""What a kilogram with the weakest costs on a trip: all together less than one weighted swap."""

_ROUNDS = 2
"""How often every unit is looked at [1]."""

_LESS = 1e-9
"""By how much a move must be better [weighted swaps]."""


def relieve(
    frame: Frame,
    draft: Draft,
    constraints: SoftConstraints,
    limits: tuple[int, ...],
    is_over: Callable[[], bool],
) -> Draft:
    """The draft with less on the weakest, as far as others have room under their trips' limits."""
    if not weakest(frame.world.problem):
        return draft
    expedition = read_expedition(frame, draft, constraints, limits)
    for _ in range(_ROUNDS):
        for unit_id in heavy_first(expedition):
            if is_over():
                return expedition.draft()
            if unit_id not in expedition.bundles:
                for way in ways(expedition, unit_id):
                    _take_over(expedition, unit_id, way)
        for trip in range(len(expedition.trips)):
            _take_over_on(expedition, trip)
    return expedition.draft()


def _take_over_on(expedition: Expedition, trip: int) -> None:
    """Give the weakest's units to others on one trip, where that is no swap or one for another."""
    one, sides = expedition.trips[trip], beside(expedition, trip)
    load = one.load
    bundled = np.isin(np.arange(len(load.where)), _bundled(expedition, trip))
    pieces = np.flatnonzero(one.on_weak[load.where] & load.has_choice & ~bundled)
    for piece in pieces[np.argsort(-load.mass[pieces], kind="stable")].tolist():
        home = int(load.where[piece])
        price = _A_KILO * float(load.mass[piece]) / 1000
        cost = room_cost(one, piece, Prices()) + swap_cost(one, sides, piece) + price * one.on_weak
        best = int(cost.argmin())
        if cost[best] < cost[home] - _LESS:
            sides.put(piece, int(one.person[home]), int(one.person[best]))
            one.put(piece, best)


def _bundled(expedition: Expedition, trip: int) -> list[int]:
    its = (expedition.pieces.get(unit_id, {}).get(trip, ()) for unit_id in expedition.bundles)
    return [int(piece) for pieces in its for piece in pieces]


def _take_over(expedition: Expedition, unit_id: str, way: Way) -> None:
    """Give a unit to others for its whole way, where it is with the weakest on some trip."""
    trips = [expedition.trips[trip] for trip, _ in way]
    homes = [int(one.load.where[piece]) for one, (_, piece) in zip(trips, way, strict=True)]
    on_weak = (one.on_weak[home] for one, home in zip(trips, homes, strict=True))
    if not any(on_weak):
        return
    costs: list[Floats] = []
    for one, (_, piece) in zip(trips, way, strict=True):
        price = _A_KILO * float(one.load.mass[piece]) / 1000
        costs.append(room_cost(one, piece, Prices()) + price * one.on_weak)
    now = sum(float(cost[home]) for cost, home in zip(costs, homes, strict=True))
    for (a, b), (x, y) in zip(pairwise(way), pairwise(homes), strict=True):
        now += float(change_cost(expedition, unit_id, a[0], b[0])[x, y])
    least, path = cheapest(expedition, unit_id, way, costs)
    if least >= now - _LESS:
        return
    for one, (_, piece), carrier in zip(trips, way, path, strict=True):
        if carrier != int(one.load.where[piece]):
            one.put(piece, carrier)
