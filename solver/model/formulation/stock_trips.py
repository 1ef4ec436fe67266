"""Trips of counted stock: outward while it is wanted there, homeward once it is not."""

from __future__ import annotations

from solver.model.instance.cargo import Cargo
from solver.model.instance.clock import Stop
from solver.model.instance.world import World
from solver.model.rows import StockRow
from solver.problem import Direction, Trip


def trips_of_stock(
    world: World, cargo: Cargo, stops: list[Stop], helps: list[Stop], held: list[StockRow]
) -> tuple[int, ...]:
    """The trips that counted stock may ride, in order."""
    used = [*stops, *((event - 1, place) for event, place, _ in cargo.uses)]
    last_wanted = _last_at_or_beyond(world, used)
    last_helpful = _last_at_or_beyond(world, [*used, *helps])
    last_whole = _last_whole(world, held)
    allowed = []
    for trip in world.timeline.trips:
        event = world.clock.trip_event[trip.index]
        outer = trip.to_place if trip.direction is Direction.OUTBOUND else trip.from_place
        wanted_beyond = last_wanted.get(outer, -1) >= event
        if trip.direction is Direction.OUTBOUND:
            if last_helpful.get(outer, -1) >= event:
                allowed.append(trip.index)
        elif (
            not wanted_beyond
            or event > last_whole.get(outer, event)
            or _goes_down_to_sleep(world, trip)
        ):
            allowed.append(trip.index)
    return tuple(allowed)


def _last_at_or_beyond(world: World, stops: list[Stop]) -> dict[str, int]:
    """For each place, the last state for which some stop is at it or beyond."""
    last: dict[str, int] = {}
    for state, place_id in stops:
        for at_or_within in world.within[place_id]:
            last[at_or_within] = max(last.get(at_or_within, 0), state)
    return last


def _last_whole(world: World, held: list[StockRow]) -> dict[str, int]:
    """For each place, the last state before what it or a place beyond must hold shrinks."""
    most: dict[tuple[str, tuple[tuple[int, int], ...]], tuple[int, int]] = {}
    for row in held:
        key = row.place_id, row.terms
        most[key] = max(most.get(key, (0, 0)), (row.at_least, row.state))
    last: dict[str, int] = {}
    for (place_id, _), (_, state) in most.items():
        for at_or_within in world.within[place_id]:
            last[at_or_within] = min(last.get(at_or_within, state), state)
    return last


def _goes_down_to_sleep(world: World, trip: Trip) -> bool:
    """Whether a homeward trip is part of a day that ends lower than it began."""
    nights = world.timeline.nights
    if not 1 < trip.day <= len(nights):
        return trip.day > 1
    before, after = nights[trip.day - 2], nights[trip.day - 1]
    return any(
        world.is_at_or_beyond(world.sleeps[before.day, person], trip.from_place)
        and not world.is_at_or_beyond(world.sleeps[after.day, person], trip.from_place)
        for person in trip.person_ids
    )
