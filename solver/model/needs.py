"""Reading an item's need against the calendar: where its people are, and what that asks."""

from __future__ import annotations

from solver.model.world import World
from solver.problem import Direction, Item, Need, NeedKind, Night, Trip


def people_of(world: World, item: Item) -> frozenset[str]:
    """Those for whom an item is needed: its owner, its rope team, or everybody."""
    return frozenset(
        person.person_id
        for person in world.problem.roster
        if (item.owner_id is None or person.person_id == item.owner_id)
        and (item.rope_team_id is None or person.rope_team_id == item.rope_team_id)
    )


def trips_of(world: World, people: frozenset[str]) -> tuple[Trip, ...]:
    """The trips that some people make."""
    return tuple(t for t in world.timeline.trips if not people.isdisjoint(t.person_ids))


def is_short_of(world: World, need: Need, place_id: str) -> bool:
    """Whether a place lies before the part of the route where the need begins."""
    route = world.problem.route
    return need.from_place is not None and not route.is_at_or_beyond(place_id, need.from_place)


def is_past(world: World, need: Need, place_id: str) -> bool:
    """Whether a place lies beyond the furthest that the item goes."""
    route = world.problem.route
    return (
        need.up_to is not None
        and place_id != need.up_to
        and route.is_at_or_beyond(place_id, need.up_to)
    )


def trips_to_ride(world: World, item: Item) -> tuple[Trip, ...]:
    """The trips that an item needed on every trip must ride."""
    if item.need.kind is not NeedKind.EVERY_TRIP:
        return ()
    return tuple(
        trip
        for trip in trips_of(world, people_of(world, item))
        if not any(
            is_short_of(world, item.need, place) or is_past(world, item.need, place)
            for place in (trip.from_place, trip.to_place)
        )
    )


def place_for_night(world: World, item: Item, night: Night) -> str | None:
    """Where an item needed by night must be on a night; None when it may be anywhere."""
    need = item.need
    place_id = next(place for person, place in night.sleeps_at if person in people_of(world, item))
    if is_past(world, need, place_id):
        return need.up_to
    if is_short_of(world, need, place_id) and need.may_go_ahead:
        return None
    return place_id


def span_at_place(world: World, item: Item) -> tuple[int, int] | None:
    """First and last state in which an item that belongs at a place must stand there.

    What may go ahead may also follow, until the last night of its people's first stay. None
    when its people never get there.
    """
    up_to = item.need.up_to
    if up_to is None:
        return None
    people = people_of(world, item)
    route, clock = world.problem.route, world.clock
    there = [
        night.day
        for night in world.timeline.nights
        if any(
            route.is_at_or_beyond(place, up_to)
            for person, place in night.sleeps_at
            if person in people
        )
    ]
    starts: list[int] = []
    if there:
        due = _last_of_first_run(there) if item.need.may_go_ahead else there[0]
        starts.append(clock.night_event[due] - 1)
    ends = [clock.night_event[day] for day in there]
    for trip in trips_of(world, people):
        if trip.from_place == up_to:
            before = clock.trip_event[trip.index] - 1
            (starts if trip.direction is Direction.UP else ends).append(before)
    if not starts:
        return None
    return min(starts), max([*starts, *ends])


def _last_of_first_run(days: list[int]) -> int:
    """The last day before the first gap in rising days."""
    last = days[0]
    while last + 1 in days:
        last += 1
    return last


def nights_on_the_way(world: World, item: Item) -> tuple[tuple[int, str], ...]:
    """Nights on which an item bound for its place stays with its people, as (state, place)."""
    span = span_at_place(world, item)
    if span is None or item.need.may_go_ahead:
        return ()
    people = people_of(world, item)
    return tuple(
        (world.clock.night_event[night.day], place)
        for night in world.timeline.nights
        for person, place in night.sleeps_at[:]
        if person == min(people) and world.clock.night_event[night.day] <= span[0]
    )
