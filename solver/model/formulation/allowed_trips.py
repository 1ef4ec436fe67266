"""Which trips are allowed to each cargo: the simplification that makes the problem small.

Things to be kept (items, open and empty containers, sacks) travel straight from one place
where a rule wants them to the next, so only trips along that way are allowed; most have just
one. Counted stock goes outward only towards a place that still wants it, and homeward only
once nobody beyond wants it, or once a reserve beyond may shrink, or with people who go down
to sleep. Any plan can be changed into one of this kind without a load anywhere growing, since
a unit that makes a detour may as well stay where it was; kinds kept apart are the exception.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass

from solver.model.formulation.further_trips import (
    allow_for_company,
    allow_for_pins,
    allow_for_the_day,
)
from solver.model.formulation.stock_trips import trips_of_stock
from solver.model.formulation.straight_way import trips_of_thing
from solver.model.formulation.trips_within_reach import allow_within_reach
from solver.model.instance.clock import Stop
from solver.model.instance.world import World
from solver.model.rows import LossRow, ReachRow, RideRow, Row, StockRow
from solver.problem import Trip


@dataclass(frozen=True, slots=True)
class AllowedTrips:
    """For each cargo, the trips that it may ride, in order; and those that all of it must."""

    trips: tuple[tuple[int, ...], ...]
    settled: frozenset[tuple[int, int]]


def find_allowed_trips(world: World, rows: list[Row]) -> AllowedTrips:
    """Find the trips of every cargo; a thing with one trip on a leg of its way must ride it."""
    stops: dict[int, list[Stop]] = defaultdict(list)
    helps: dict[int, list[Stop]] = defaultdict(list)
    held: dict[int, list[StockRow]] = defaultdict(list)
    rides: dict[int, list[Trip]] = defaultdict(list)
    for row in rows:
        if isinstance(row, StockRow):
            for index, weight in row.terms:
                if row.at_least > 0 and weight > 0:
                    stops[index].append((row.state, row.place_id))
                    held[index].append(row)
        elif isinstance(row, RideRow):
            rides[row.cargo].append(world.timeline.trips[row.trip])
        elif isinstance(row, LossRow | ReachRow):
            for index, _ in row.terms:
                helps[index] += _within(world, row)
    allowed: list[tuple[int, ...]] = []
    settled: set[tuple[int, int]] = set()
    for cargo in world.cargo:
        mine = stops[cargo.index]
        if cargo.is_stock:
            allowed.append(
                trips_of_stock(world, cargo, mine, helps[cargo.index], held[cargo.index])
            )
        else:
            trips, musts = trips_of_thing(world, cargo, mine, rides[cargo.index])
            allowed.append(trips)
            settled |= {(cargo.index, trip) for trip in musts}
    allow_for_pins(world, rows, allowed, settled)
    allow_for_company(world, rows, allowed)
    allow_for_the_day(world, rows, allowed, settled)
    allow_within_reach(world, rows, allowed, settled, stops)
    return AllowedTrips(tuple(allowed), frozenset(settled))


def _within(world: World, row: LossRow | ReachRow) -> list[Stop]:
    """Where and when a unit helps to keep a row that does not say which units must be there."""
    if isinstance(row, ReachRow):
        return [(row.state, place_id) for place_id in row.place_ids]
    event = world.clock.trip_event[row.trip]
    return [(event, place_id) for place_id in row.place_ids]
