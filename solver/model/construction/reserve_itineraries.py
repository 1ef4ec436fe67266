"""Itineraries of what is held in reserve, and how reserves are used up on the way home."""

from __future__ import annotations

from collections import defaultdict

from solver.model.formulation.frame import Frame
from solver.model.instance.clock import Stop
from solver.model.rows import StockRow

Itinerary = tuple[int, list[Stop]]
"""A unit's cargo, and the states and places where it must stand, in order."""


def eat_reserves_later(frame: Frame, found: list[Itinerary]) -> list[Itinerary]:
    """Use what was kept in reserve on a later night on the way home; what it saves stays behind."""
    world = frame.world
    keepers: dict[int, list[list[Stop]]] = defaultdict(list)
    users: dict[int, list[list[Stop]]] = defaultdict(list)
    result = []
    for cargo, stops in found:
        if not world.cargo[cargo].is_stock:
            result.append((cargo, stops))
        elif len(stops) == 1:
            users[cargo].append(stops)
        else:
            keepers[cargo].append(stops)
    for cargo, single in users.items():
        for stops in sorted(single, reverse=True):
            state, place_id = stops[0]
            free = [
                kept
                for kept in keepers[cargo]
                if kept[-2][0] < state and world.is_at_or_beyond(kept[-2][1], place_id)
            ]
            if free:
                kept = max(free, key=lambda stops: stops[-2][0])
                keepers[cargo].remove(kept)
                result.append((cargo, [*kept[:-1], stops[0]]))
            else:
                result.append((cargo, stops))
    result += [(cargo, stops) for cargo, many in keepers.items() for stops in many]
    return result


def shared_itineraries(
    frame: Frame, rows: list[StockRow], spare: dict[int, int]
) -> list[Itinerary]:
    """Whole containers for each place's fuel reserve: the smallest that will do, else largest.

    Kinds with units to spare come first, then containers that were held elsewhere before;
    where there is none either, one that is burnt later must serve.
    """
    home = (frame.world.clock.last, frame.world.problem.start_place)
    found: list[Itinerary] = []
    groups: dict[tuple[str, tuple[tuple[int, int], ...]], list[StockRow]] = defaultdict(list)
    for row in rows:
        groups[row.place_id, row.terms].append(row)
    for (place_id, terms), here in sorted(
        groups.items(), key=lambda group: min(row.state for row in group[1])
    ):
        content = dict(terms)
        missing = max(row.at_least for row in here)
        states = [row.state for row in here]
        stay = [(min(states), place_id), (max(states), place_id)]
        while missing > 0:
            free = [c for c, stops in found if c in content and stops[-1][0] < stay[0][0]]
            kinds = [c for c in content if spare[c] > 0] or free or list(content)
            left = sorted((content[c], c) for c in kinds)
            amount, cargo = next((pair for pair in left if pair[0] >= missing), left[-1])
            missing -= amount
            if spare[cargo] <= 0 and cargo in free:
                held = (stops for c, stops in found if c == cargo and stops[-1][0] < stay[0][0])
                max(held, key=lambda stops: stops[-1][0]).extend(stay)
            else:
                spare[cargo] -= 1
                found.append((cargo, list(stay)))
    return [(cargo, [*stops, home]) for cargo, stops in found]
