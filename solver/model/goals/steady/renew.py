"""Where most swaps are, a few units taken out and dealt out again, over and over.

Each step takes a trip at which most is swapped or broken, takes out units that swap there and a few
others, for all their trips, and gives each its cheapest way anew. What is no better is undone.
Which units go is drawn by a checksum and work is counted in steps, so that it repeats itself.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from zlib import crc32

import numpy as np

from solver.model.goals.steady.costs import Prices, broken_cost, is_over_limit, mixed_cost
from solver.model.goals.steady.exchange import exchange
from solver.model.goals.steady.expedition import Expedition, OneTrip
from solver.model.goals.steady.paths import cheapest, heavy_first, mixing_cost, ways_by_number
from solver.model.packing.trip_load import Floats, Ints
from solver.model.work import Work

PRICES = Prices()
"""As in the exchanges of trips."""

_SWAPPING, _OTHERS = 5, 3
"""How many units that swap at a trip are taken out, and how many others there [1]."""

_FULL, _OVERFULL, _MORE_OVERFULL, _SPLIT = 0.05, 3.0, 50.0, 0.3
"""What a full load costs, one above its limit and how far, and a part of a bundle elsewhere.

Loads above their limit are repaired after a step.
"""

_BROKEN_SPREAD, _REPAIRS = 1e6, 30
"""What a unit too many in a spread row costs, and how many exchanges may repair a trip."""

_A_PIECE = 5_000
"""Steps that stand for a piece taken out and dealt out again [1]."""

_Link = tuple[str, int, int]
"""A unit and two trips on which it rides one after the other."""


@dataclass(frozen=True, slots=True)
class _Costs:
    """What a deal costs: at each link where units swap, and by trip what is broken there."""

    swaps: dict[_Link, int]
    broken: tuple[float, ...]

    @property
    def total(self) -> float:
        """All together, in weighted swaps."""
        return sum(self.swaps.values()) + sum(self.broken)

    def by_trip(self) -> Counter[int]:
        """How much is to be gained at each trip."""
        pressure: Counter[int] = Counter()
        for (_, earlier, later), cost in self.swaps.items():
            pressure[earlier] += cost
            pressure[later] += cost
        for trip, broken in enumerate(self.broken):
            if broken:
                pressure[trip] += round(broken)
        return pressure


def renew(expedition: Expedition, steps: int, work: Work) -> int:
    """Take up to so many steps; how many made it better. No trip passes its limit by one."""
    heavy = {unit_id: at for at, unit_id in enumerate(heavy_first(expedition))}
    now, better = _costs(expedition), 0
    visits: Counter[int] = Counter()
    for step in range(steps):
        pressure = now.by_trip()
        if not pressure or work.is_over():
            break
        centre = min(pressure, key=lambda trip: (-pressure[trip] / (1 + visits[trip]), trip))
        visits[centre] += 1
        units = _drawn(expedition, now, centre, step)
        work.spend(_A_PIECE * sum(map(len, _pieces_of(expedition, units))))
        before = [one.load.where.copy() for one in expedition.trips]
        _deal(expedition, sorted(units, key=heavy.__getitem__))
        over = not _repair(expedition, _trips_of(expedition, units))
        after = now if over else _costs(expedition)
        if over or after.total > now.total + 1e-6:
            _undo(expedition, before)
        else:
            better += after.total < now.total - 1e-6
            now = after
    return better


def _costs(expedition: Expedition) -> _Costs:
    swaps: dict[_Link, int] = {}
    for unit_id, on_trips in expedition.pieces.items():
        held = {trip: expedition.held_by(unit_id, trip) for trip in sorted(on_trips)}
        for earlier, later in pairwise(held):
            more = held[later] - held[earlier]
            units = min(int(np.maximum(more, 0).sum()), int(np.maximum(-more, 0).sum()))
            if units:
                weight = dict(expedition.trips[earlier].neighbours[unit_id])[later]
                swaps[unit_id, earlier, later] = units * weight
    return _Costs(swaps, tuple(_broken(one) for one in expedition.trips))


def _broken(one: OneTrip) -> float:
    """What the preferences of a trip cost."""
    where = one.load.where
    away = float(one.away[np.arange(len(where)), where].sum())
    kept = float(broken_cost(one.violations, one.violations.value, PRICES))
    return kept + float(mixed_cost(one.kinds_in, PRICES).sum()) + PRICES.broken * away


def _drawn(expedition: Expedition, now: _Costs, centre: int, step: int) -> list[str]:
    """Units that swap at a trip and others that ride there, drawn by a checksum."""

    def draw(unit_id: str) -> int:
        return crc32(f"{step}/{unit_id}".encode())

    swapping = {unit_id for unit_id, *trips in now.swaps if centre in trips}
    there = {unit_id for unit_id, on_trips in expedition.pieces.items() if centre in on_trips}
    others = sorted(sorted(there - swapping), key=draw)
    return sorted(sorted(swapping), key=draw)[:_SWAPPING] + others[:_OTHERS]


def _pieces_of(expedition: Expedition, units: Sequence[str]) -> Iterator[Ints]:
    for unit_id in units:
        yield from expedition.pieces[unit_id].values()


def _trips_of(expedition: Expedition, units: Sequence[str]) -> list[int]:
    return sorted({trip for unit_id in units for trip in expedition.pieces[unit_id]})


def _deal(expedition: Expedition, units: Sequence[str]) -> None:
    """Take units out and give each its cheapest way, one after the other."""
    for unit_id in units:
        for trip, pieces in expedition.pieces[unit_id].items():
            one = expedition.trips[trip]
            for piece in pieces[one.load.has_choice[pieces]].tolist():
                one.take_out(piece)
    for unit_id in units:
        first: dict[int, int] = {}
        for way in ways_by_number(expedition, unit_id):
            costs = []
            for trip, piece in way:
                one = expedition.trips[trip]
                cost = _cost(one, piece)
                if unit_id in expedition.bundles and trip in first:
                    cost += _SPLIT * (one.person != first[trip])
                costs.append(cost)
            _, path = cheapest(expedition, unit_id, way, costs)
            for (trip, piece), carrier in zip(way, path, strict=True):
                expedition.trips[trip].put(piece, carrier)
                first.setdefault(trip, int(expedition.trips[trip].person[carrier]))


def _repair(expedition: Expedition, trips: Sequence[int]) -> bool:
    """Bring trips down to their limits by exchanges; whether all are."""
    for trip in trips:
        if is_over_limit(expedition.trips[trip]):
            exchange(expedition, trip, PRICES, most_steps=_REPAIRS)
            if is_over_limit(expedition.trips[trip]):
                return False
    return True


def _cost(one: OneTrip, piece: int) -> Floats:
    """What a piece that is out costs in each carrier (C,)."""
    load, rows = one.load, one.load.rows_of
    more = one.amount[piece][rows]
    full = np.where(more > 0, (load.load[rows] + more) / np.maximum(one.most[rows], 1), 0.0)
    fullest = full.max(axis=1)
    over = np.where(fullest > 1, _OVERFULL + _MORE_OVERFULL * (fullest - 1), 0.0)
    cost = _FULL * fullest**2 + over
    for row in np.flatnonzero(load.member[:, piece]):
        too_many = load.counted[row] + load.member[row, piece] > load.most[row]
        cost += np.where(too_many, _BROKEN_SPREAD, 0.0)
    violations = one.violations
    if len(violations.value):
        change = violations.by_mass * load.mass[piece]
        if violations.is_equipment[piece]:
            change = change + violations.by_equipment
        cost += broken_cost(violations, (violations.value[:, None] + change).T, PRICES)
    if one.kinds[:, piece].any():
        cost += mixing_cost(one, piece, PRICES)
    return np.where(load.able[piece], cost + PRICES.broken * one.away[piece], np.inf)


def _undo(expedition: Expedition, before: Sequence[Ints]) -> None:
    for one, where in zip(expedition.trips, before, strict=True):
        for piece in np.flatnonzero(one.load.where != where).tolist():
            one.put(piece, int(where[piece]))
