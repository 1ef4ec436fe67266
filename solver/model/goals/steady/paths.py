"""Each unit's way through all its trips as a shortest path over the carriers."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable
from itertools import pairwise

import numpy as np

from solver.model.goals.steady.costs import Prices, broken_cost, mixed_cost
from solver.model.goals.steady.expedition import Expedition, OneTrip
from solver.model.packing.trip_load import Floats

Way = list[tuple[int, int]]
"""A unit's trips in order, each with the piece that it is there."""


def better_paths(
    expedition: Expedition, prices: Prices, is_over: Callable[[], bool], *, most_rounds: int = 2
) -> int:
    """Give every unit its cheapest way under the room that the others leave, heavy units first.

    How many ways changed.
    """
    total = 0
    for _ in range(most_rounds):
        changed = 0
        for unit_id in heavy_first(expedition):
            if is_over():
                return total
            for way in ways(expedition, unit_id):
                changed += _better(expedition, unit_id, way, prices)
        total += changed
        if not changed:
            break
    return total


def heavy_first(expedition: Expedition) -> list[str]:
    """The units by what they weigh and take up, the heaviest first."""

    def size(unit_id: str) -> float:
        return max(
            float(expedition.trips[trip].load.mass[its[0]])
            + 0.15 * float(expedition.trips[trip].load.volume[its[0]])
            for trip, its in expedition.pieces[unit_id].items()
        )

    return sorted(expedition.pieces, key=lambda unit_id: (-size(unit_id), unit_id))


def cheapest(
    expedition: Expedition, unit_id: str, way: Way, costs: list[Floats]
) -> tuple[float, list[int]]:
    """The cheapest carriers along a way, given what each costs on each trip, and their cost."""
    changes = [change_cost(expedition, unit_id, a[0], b[0]) for a, b in pairwise(way)]
    return cheapest_path(costs, changes)


def cheapest_path(costs: list[Floats], changes: list[Floats]) -> tuple[float, list[int]]:
    """The cheapest carriers from trip to trip, and their cost.

    `costs` (C,) are of each trip, `changes` (C, C) of going from a trip's carriers to the next's.
    """
    best, back = costs[0], []
    for change, cost in zip(changes, costs[1:], strict=True):
        through = best[:, None] + change
        step = through.argmin(axis=0)
        back.append(step)
        best = through[step, np.arange(len(step))] + cost
    path = [int(best.argmin())]
    for step in reversed(back):
        path.append(int(step[path[-1]]))
    return float(best.min()), path[::-1]


def change_cost(expedition: Expedition, unit_id: str, earlier: int, later: int) -> Floats:
    """What it costs to go from each carrier of one trip to each of the next (C, C)."""
    before, after = expedition.trips[earlier], expedition.trips[later]
    weight = dict(before.neighbours.get(unit_id, ())).get(later, 1)
    change: Floats = weight * (before.person[:, None] != after.person).astype(np.float64)
    return change


def ways(expedition: Expedition, unit_id: str) -> list[Way]:
    """Units that stay with their person from trip to trip are one way; others go on anywhere."""
    done: list[Way] = []
    going: list[Way] = []
    for trip in sorted(expedition.pieces[unit_id]):
        one = expedition.trips[trip]
        waiting: dict[int, list[int]] = defaultdict(list)
        for piece in expedition.pieces[unit_id][trip].tolist():
            waiting[int(one.person[one.load.where[piece]])].append(piece)
        on, free = [], []
        for way in going:
            last_trip, last = way[-1]
            before = expedition.trips[last_trip]
            same = waiting[int(before.person[before.load.where[last]])]
            if same:
                way.append((trip, same.pop()))
                on.append(way)
            else:
                free.append(way)
        left = [piece for pieces in waiting.values() for piece in pieces]
        for way in free:
            if left:
                way.append((trip, left.pop(0)))
                on.append(way)
            else:
                done.append(way)
        going = on + [[(trip, piece)] for piece in left]
    return done + going


def _better(expedition: Expedition, unit_id: str, way: Way, prices: Prices) -> bool:
    """Take the cheapest way if it is cheaper than where the unit rides now."""
    trips = [expedition.trips[trip] for trip, _ in way]
    homes = [int(one.load.where[piece]) for one, (_, piece) in zip(trips, way, strict=True)]
    people = [int(one.person[home]) for one, home in zip(trips, homes, strict=True)]
    broken = (one.broken_at()[home] for one, home in zip(trips, homes, strict=True))
    is_away = any(
        one.away[piece, home] for one, (_, piece), home in zip(trips, way, homes, strict=True)
    )
    if len(set(people)) == 1 and not any(broken) and not is_away:
        return False
    return cheaper_way(expedition, unit_id, way, lambda one, piece: room_cost(one, piece, prices))


def cheaper_way(
    expedition: Expedition,
    unit_id: str,
    way: Way,
    cost_of: Callable[[OneTrip, int], Floats],
    less: float = 1e-6,
) -> bool:
    """Take the cheapest way if it is cheaper than the unit's own by more than `less`.

    `cost_of` is what a piece costs in each carrier of a trip (C,), infinite where it may not go.
    """
    trips = [expedition.trips[trip] for trip, _ in way]
    homes = [int(one.load.where[piece]) for one, (_, piece) in zip(trips, way, strict=True)]
    costs = [cost_of(one, piece) for one, (_, piece) in zip(trips, way, strict=True)]
    now = sum(float(cost[home]) for cost, home in zip(costs, homes, strict=True))
    for (a, b), (x, y) in zip(pairwise(way), pairwise(homes), strict=True):
        now += float(change_cost(expedition, unit_id, a[0], b[0])[x, y])
    least, path = cheapest(expedition, unit_id, way, costs)
    if least >= now - less:
        return False
    for one, (_, piece), carrier in zip(trips, way, path, strict=True):
        if carrier != int(one.load.where[piece]):
            one.put(piece, carrier)
    return True


def room_cost(one: OneTrip, piece: int, prices: Prices) -> Floats:
    """What preferences cost with a piece in each carrier (C,), infinite where it has no room."""
    load, home = one.load, int(one.load.where[piece])
    spare = one.most - load.load
    # Rows that its home counts in hold the piece already.
    lacks = (one.amount[piece] > spare) & ~one.rows[home]
    lacks[-1] = False
    fits = load.able[piece] & ~lacks[load.rows_of].any(axis=1)
    for row in load.member[:, piece].nonzero()[0].tolist():
        counted = load.counted[row] <= load.most[row] - load.member[row, piece]
        fits &= counted
    fits[home] = True
    cost = np.full(len(fits), np.inf)
    cost[fits] = prices.broken * one.away[piece, fits]
    violations, into = one.violations, np.flatnonzero(fits)
    if len(violations.value):
        change = (violations.by_mass[:, into] - violations.by_mass[:, [home]]) * load.mass[piece]
        if violations.is_equipment[piece]:
            change += violations.by_equipment[:, into] - violations.by_equipment[:, [home]]
        cost[into] += broken_cost(violations, (violations.value[:, None] + change).T, prices)
    if one.kinds[:, piece].any():
        cost += mixing_cost(one, piece, prices)
    return cost


def mixing_cost(one: OneTrip, piece: int, prices: Prices) -> Floats:
    """What a piece makes more of mixed fuel and food in each carrier (C,)."""
    kinds, theirs = one.kinds_in.copy(), one.kinds[:, piece]
    home = int(one.load.where[piece])
    if home >= 0:
        kinds[:, home] -= theirs
    more: Floats = mixed_cost(kinds + theirs[:, None], prices) - mixed_cost(kinds, prices)
    return more
