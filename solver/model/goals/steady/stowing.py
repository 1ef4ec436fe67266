"""Each unit's way through the trips of its person: in the pack or on the sled."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator
from itertools import pairwise

import numpy as np

from solver.model.formulation.frame import Frame
from solver.model.goals.repacking_counts import repacking_weight
from solver.model.goals.steady.costs import Prices
from solver.model.goals.steady.expedition import Expedition, OneTrip
from solver.model.goals.steady.paths import cheapest_path, room_cost
from solver.model.packing.trip_load import Floats, Ints

_PRICES = Prices(broken=1_000.0, gram=0.0, mixed=0.0)
"""No number of repackings is worth a broken preference."""

_MOST_ROUNDS = 3
"""How often every unit looks for a better way [1]."""

Chain = list[tuple[int, int]]
"""Trips on which a unit stays with its person, in order, each with the piece that it is there."""


def stow_alike(frame: Frame, expedition: Expedition, is_over: Callable[[], bool]) -> None:
    """Let every unit stay in the pack or on the sled of its person, as far as there is room.

    Heavy units go first. A change between two trips costs what a repacking counts, if the person
    hauls a sled on both.
    """
    days = [trip.day for trip in frame.world.timeline.trips]
    pieces = _heavy_first(frame, expedition)
    for _ in range(_MOST_ROUNDS):
        changed = False
        for on_trips in pieces:
            if is_over():
                return
            for chain in _chains(expedition, on_trips):
                changed |= _better(expedition, chain, days)
        if not changed:
            return


def _heavy_first(frame: Frame, expedition: Expedition) -> list[dict[int, Ints]]:
    """The pieces of each unit id by trip, the heaviest unit first."""
    found: dict[str, dict[int, list[int]]] = defaultdict(lambda: defaultdict(list))
    mass: dict[str, int] = {}
    for trip, one in enumerate(expedition.trips):
        for piece, cargo in enumerate(one.load.cargo.tolist()):
            unit_id = frame.world.cargo[cargo].unit_id
            found[unit_id][trip].append(piece)
            mass[unit_id] = max(mass.get(unit_id, 0), int(one.load.mass[piece]))
    order = sorted(found, key=lambda unit_id: (-mass[unit_id], unit_id))
    return [{trip: np.array(its) for trip, its in found[unit_id].items()} for unit_id in order]


def _chains(expedition: Expedition, on_trips: dict[int, Ints]) -> Iterator[Chain]:
    """Units that go on with their person from trip to trip, those first that are not moved."""
    going: dict[int, list[Chain]] = {}
    for trip in sorted(on_trips):
        one = expedition.trips[trip]
        waiting: dict[int, list[int]] = defaultdict(list)
        for piece in on_trips[trip].tolist():
            waiting[int(one.person[one.load.where[piece]])].append(piece)
        on: dict[int, list[Chain]] = {}
        for person, pieces in waiting.items():
            chains = going.pop(person, [])
            on[person] = _paired(expedition, chains, trip, pieces)
            yield from (chain for chain in chains if chain[-1][0] != trip)
        yield from (chain for chains in going.values() for chain in chains)
        going = on
    yield from (chain for chains in going.values() for chain in chains)


def _paired(
    expedition: Expedition, chains: list[Chain], trip: int, pieces: list[int]
) -> list[Chain]:
    """Chains that go on with a piece of the next trip, and new ones for the pieces left over."""
    left, on = list(pieces), []
    one = expedition.trips[trip]
    for same in (True, False):
        for chain in chains:
            last_trip, last = chain[-1]
            was_on_sled = _on_sled(expedition.trips[last_trip], last)
            fitting = [p for p in left if not same or _on_sled(one, p) == was_on_sled]
            if last_trip != trip and fitting:
                left.remove(fitting[0])
                chain.append((trip, fitting[0]))
                on.append(chain)
    return on + [[(trip, piece)] for piece in left]


def _better(expedition: Expedition, chain: Chain, days: list[int]) -> bool:
    """Take the cheapest way of one unit if it is cheaper than how it is stowed now."""
    trips = [expedition.trips[trip] for trip, _ in chain]
    homes = [int(one.load.where[piece]) for one, (_, piece) in zip(trips, chain, strict=True)]
    links = [
        _change(before, after, repacking_weight(days[a], days[b]), home)
        for (before, after), ((a, _), (b, _)), home in zip(
            pairwise(trips), pairwise(chain), homes, strict=False
        )
    ]
    moved = sum(float(change[x, y]) for change, (x, y) in zip(links, pairwise(homes), strict=True))
    if not moved:
        return False
    costs = []
    for one, (_, piece), home in zip(trips, chain, homes, strict=True):
        cost = room_cost(one, piece, _PRICES)
        costs.append(np.where(one.person == one.person[home], cost, np.inf))
    now = moved + sum(float(cost[home]) for cost, home in zip(costs, homes, strict=True))
    least, path = cheapest_path(costs, links)
    if least >= now - 1e-6:
        return False
    for one, (_, piece), carrier in zip(trips, chain, path, strict=True):
        if carrier != int(one.load.where[piece]):
            one.put(piece, carrier)
    return True


def _change(before: OneTrip, after: OneTrip, weight: int, home: int) -> Floats:
    """What it costs to go from each carrier of one trip to each of the next (C, C)."""
    person = before.person[home]
    hauls = all((one.on_sled & (one.person == person)).any() for one in (before, after))
    change = weight * (before.on_sled[:, None] != after.on_sled) * float(hauls)
    return np.asarray(change, dtype=np.float64)


def _on_sled(one: OneTrip, piece: int) -> bool:
    return bool(one.on_sled[one.load.where[piece]])
