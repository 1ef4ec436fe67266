"""Itineraries of what is held in reserve, and how reserves are used up on the way home."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from heapq import heapify, heappop, heappush
from itertools import groupby

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

    One that was held at the place before comes first, then kinds with units to spare, then
    containers that were held elsewhere before; where there is none either, one that is burnt
    later must serve. What a container leaves missing is asked for only while it is missing, so
    that it may go on to the next reserve.
    """
    home = (frame.world.clock.last, frame.world.problem.start_place)
    found: list[Itinerary] = []
    waiting = _demands(rows)
    while waiting:
        demand = heappop(waiting)
        cargo = _container(demand, found, spare)
        missing = replace(demand, covered=demand.covered + demand.content[cargo])
        for part in missing.parts():
            heappush(waiting, part)
    return [(cargo, [*stops, home]) for cargo, stops in found]


@dataclass(frozen=True, slots=True, order=True)
class _Demand:
    """Fuel that must stand at a place over some states, of which so much is covered."""

    start: int
    number: int
    place_id: str = field(compare=False)
    content: dict[int, int] = field(compare=False)
    at_least: tuple[tuple[int, int], ...] = field(compare=False)
    covered: int = field(compare=False, default=0)

    def parts(self) -> Iterator[_Demand]:
        """What is still missing, a part for each run of states without a gap."""
        for missing, run in groupby(self.at_least, key=lambda pair: pair[1] > self.covered):
            if missing:
                states = tuple(run)
                yield replace(self, start=states[0][0], at_least=states)


def _demands(rows: list[StockRow]) -> list[_Demand]:
    """The reserves of each place as a heap in the order of their first states.

    A state in which nothing is asked for at a place is a gap.
    """
    most: dict[tuple[str, tuple[tuple[int, int], ...]], dict[int, int]] = defaultdict(dict)
    for row in rows:
        states = most[row.place_id, row.terms]
        states[row.state] = max(row.at_least, states.get(row.state, 0))
    asked = sorted({row.state for row in rows})
    demands = [
        part
        for number, ((place_id, terms), states) in enumerate(most.items())
        for part in _Demand(
            0, number, place_id, dict(terms), tuple((at, states.get(at, 0)) for at in asked)
        ).parts()
    ]
    heapify(demands)
    return demands


def _container(demand: _Demand, found: list[Itinerary], spare: dict[int, int]) -> int:
    """The cargo of which one unit stays for a demand; its itinerary is made or made longer."""
    content, start = demand.content, demand.start
    stay = [(start, demand.place_id), (demand.at_least[-1][0], demand.place_id)]
    missing = max(amount for _, amount in demand.at_least) - demand.covered
    free = [(c, stops) for c, stops in found if c in content and stops[-1][0] < start]
    here = [(c, stops) for c, stops in free if stops[-1][1] == demand.place_id]
    kinds = {c for c, _ in here} or {c for c in content if spare[c] > 0} or {c for c, _ in free}
    left = sorted((content[c], c) for c in kinds or content)
    _, cargo = next((pair for pair in left if pair[0] >= missing), left[-1])
    again = [stops for c, stops in (here or free) if c == cargo]
    if again and (here or spare[cargo] <= 0):
        max(again, key=lambda stops: stops[-1][0]).extend(stay)
    else:
        spare[cargo] -= 1
        found.append((cargo, stay))
    return cargo
