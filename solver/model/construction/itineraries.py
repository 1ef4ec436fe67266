"""Where each unit must stand and when, for the greedy plan."""

from __future__ import annotations

from collections import Counter, defaultdict

from solver.model.construction.reserve_itineraries import (
    Itinerary,
    eat_reserves_later,
    shared_itineraries,
)
from solver.model.formulation.frame import Frame
from solver.model.instance.cargo import Cargo
from solver.model.instance.clock import Stop
from solver.model.rows import StockRow


def itineraries(frame: Frame) -> list[Itinerary] | None:
    """For each unit, the states and places where it must stand, in order; None if short."""
    rows: dict[int, list[StockRow]] = defaultdict(list)
    shared: list[StockRow] = []
    for row in frame.stock_rows:
        if len(row.terms) == 1 and row.terms[0][1] == 1:
            rows[row.terms[0][0]].append(row)
        elif row.at_least > 0 and row.terms and all(weight > 0 for _, weight in row.terms):
            shared.append(row)
        elif row.at_least > 0:
            return None
    found: list[Itinerary] = []
    spare: dict[int, int] = {}
    for thing in frame.world.cargo:
        if thing.is_stock:
            mine = _stock_itineraries(frame, thing, rows[thing.index])
            spare[thing.index] = thing.count - len(mine)
            found += [(thing.index, stops) for stops in mine]
        else:
            stops = _thing_stops(frame, thing, rows[thing.index])
            found += [(thing.index, list(stops)) for _ in range(thing.count)]
    found = eat_reserves_later(frame, found + shared_itineraries(frame, shared, spare))
    taken = Counter(cargo for cargo, _ in found)
    enough = all(units <= frame.world.cargo[cargo].count for cargo, units in taken.items())
    return found if enough else None


def _thing_stops(frame: Frame, thing: Cargo, rows: list[StockRow]) -> list[Stop]:
    clock, trips = frame.world.clock, frame.world.timeline.trips
    stops = [(row.state, row.place_id) for row in rows if row.at_least > 0]
    for trip in frame.allowed_trips[thing.index]:
        if (thing.index, trip) in frame.required_rides:
            event = clock.trip_event[trip]
            stops += [(event - 1, trips[trip].from_place), (event, trips[trip].to_place)]
    return sorted(stops, key=lambda stop: stop[0])


def _stock_itineraries(frame: Frame, thing: Cargo, rows: list[StockRow]) -> list[list[Stop]]:
    """Fates of the bags or containers that are used, then of those kept in reserve."""
    found: list[list[Stop]] = [
        [(event - 1, place_id)] for event, place_id, units in thing.uses for _ in range(units)
    ]
    start, last = frame.world.problem.start_place, frame.world.clock.last
    kept = [
        row
        for row in rows
        if row.at_least > 0 and not (row.state == last and row.place_id == start)
    ]
    for place_id in dict.fromkeys(row.place_id for row in kept):
        here = [row for row in kept if row.place_id == place_id]
        for rank in range(1, max(row.at_least for row in here) + 1):
            states = [row.state for row in here if row.at_least >= rank]
            found.append([(min(states), place_id), (max(states), place_id), (last, start)])
    return found
