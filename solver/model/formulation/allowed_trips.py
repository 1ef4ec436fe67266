"""Which trips are open to each cargo: the simplification that makes the problem small.

Things to be kept (items, open and empty containers, sacks) travel straight from one place
where a rule wants them to the next, so only trips along that way are open; most have just
one. Counted stock goes outward only towards a place that still wants it, and homeward only
once nobody beyond wants it, or once a reserve beyond may shrink, or with people who go down
to sleep. Any plan can be changed into one of this kind without a load anywhere growing, since
a unit that makes a detour may as well stay where it was; kinds kept apart are the exception.
The file is long because all that opens a trip stands in it.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from itertools import pairwise

from solver.model.instance.cargo import Cargo
from solver.model.instance.world import World
from solver.model.rows import ApartRow, LossRow, ReachRow, RideRow, Row, SomeRideRow, StockRow
from solver.problem import Direction, Trip

Stop = tuple[int, str]
"""A state, and the place where a cargo must stand in it."""


@dataclass(frozen=True, slots=True)
class Openings:
    """For each cargo, the trips that it may ride, in order; and those that all of it must."""

    opened: tuple[tuple[int, ...], ...]
    settled: frozenset[tuple[int, int]]


def open_trips(world: World, rows: list[Row]) -> Openings:
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
    opened: list[tuple[int, ...]] = []
    settled: set[tuple[int, int]] = set()
    for cargo in world.cargo:
        mine = stops[cargo.index]
        if cargo.is_stock:
            opened.append(_for_stock(world, cargo, mine, helps[cargo.index], held[cargo.index]))
        else:
            trips, musts = _for_things(world, cargo, mine, rides[cargo.index])
            opened.append(trips)
            settled |= {(cargo.index, trip) for trip in musts}
    _open_for_company(world, rows, opened)
    _open_for_the_day(world, rows, opened, settled)
    _open_for_help(world, rows, opened, settled, stops)
    return Openings(tuple(opened), frozenset(settled))


def _open_for_company(world: World, rows: list[Row], opened: list[tuple[int, ...]]) -> None:
    """Open every trip to kinds of which a further unit may ride so that others need not part.

    With a third unit in somebody else's pack, two of a kind may ride in one: the one case in
    which a detour makes a load elsewhere smaller. So it is with containers of fuel that must
    be spread, of which full ones may go anywhere.
    """
    everywhere = tuple(trip.index for trip in world.timeline.trips)
    kinds = {row.cargoes for row in rows if isinstance(row, ApartRow) and not row.half}
    for cargoes in sorted(kinds):
        for trip in everywhere:
            riding = [cargo for cargo in cargoes if trip in opened[cargo]]
            units = sum(world.cargo[cargo].count for cargo in riding)
            if units >= 2 and len(riding) < len(cargoes):
                for cargo in cargoes:
                    opened[cargo] = everywhere
                break
    for cargoes in sorted({r.cargoes for r in rows if isinstance(r, ApartRow) and r.half}):
        spare = [cargo for cargo in cargoes if world.cargo[cargo].is_stock]
        for trip in everywhere:
            riding = [cargo for cargo in cargoes if trip in opened[cargo]]
            units = sum(world.cargo[cargo].count for cargo in riding)
            if units >= 2 and not set(spare) <= set(riding):
                for cargo in spare:
                    opened[cargo] = everywhere
                break


def _within(world: World, row: LossRow | ReachRow) -> list[Stop]:
    """Where and when a unit helps to keep a row that does not say which units must be there."""
    if isinstance(row, ReachRow):
        return [(row.state, place_id) for place_id in row.place_ids]
    event = world.clock.trip_event[row.trip]
    return [(event, place_id) for place_id in row.place_ids]


def _open_for_the_day(
    world: World, rows: list[Row], opened: list[tuple[int, ...]], settled: set[tuple[int, int]]
) -> None:
    """Open the day's trips of a party to what some of must ride with it on one of them.

    A thing that may go there and back has a choice on every other trip, too.
    """
    forced = {(row.cargo, row.trip) for row in rows if isinstance(row, RideRow)}
    for row in rows:
        if not isinstance(row, SomeRideRow):
            continue
        day, people = world.timeline.trips[row.trip].day, world.timeline.trips[row.trip].person_ids
        trips = {t.index for t in world.timeline.trips if t.day == day and t.person_ids == people}
        for cargo, _ in row.terms:
            if not trips <= set(opened[cargo]):
                opened[cargo] = tuple(sorted({*opened[cargo], *trips}))
                settled -= {
                    (index, trip)
                    for index, trip in settled
                    if index == cargo and (index, trip) not in forced
                }


def _open_for_help(
    world: World,
    rows: list[Row],
    opened: list[tuple[int, ...]],
    settled: set[tuple[int, int]],
    stops: dict[int, list[Stop]],
) -> None:
    """Open every trip to things of which some must be within reach and might not be.

    A row that asks for any of several things is met by those that are there anyhow in most
    worlds; where it is not, each of them may have to go where no other rule wants it.
    """
    everywhere = tuple(trip.index for trip in world.timeline.trips)
    forced = {(row.cargo, row.trip) for row in rows if isinstance(row, RideRow)}
    for row in rows:
        if not isinstance(row, LossRow | ReachRow | SomeRideRow):
            continue
        if not all(world.cargo[cargo].item is not None for cargo, _ in row.terms):
            continue
        sure = 0
        for cargo, weight in row.terms:
            sure += weight * _surely_there(
                world, row, cargo, opened=opened[cargo], settled=settled, stops=stops[cargo]
            )
        # One unit of the largest may be alone in the carrier that is lost.
        lost = max((w for _, w in row.terms), default=0) if isinstance(row, LossRow) else 0
        if sure - lost >= row.at_least:
            continue
        for cargo, _ in row.terms:
            if opened[cargo] != everywhere:
                opened[cargo] = everywhere
                settled -= {pair for pair in settled if pair[0] == cargo and pair not in forced}


def _surely_there(
    world: World,
    row: LossRow | ReachRow | SomeRideRow,
    cargo: int,
    *,
    opened: tuple[int, ...],
    settled: set[tuple[int, int]],
    stops: list[Stop],
) -> int:
    """Units of a thing that are where a row asks for them whatever is chosen."""
    places, state = _asked_at(world, row)
    thing = world.cargo[cargo]
    if not thing.is_there(state):
        return 0
    there = thing.birthplace in places
    wanted = dict(stops)
    for now in range(thing.born, state + 1):
        for trip in world.clock.trips_at[now] if now > thing.born else ():
            if trip.index not in opened:
                continue
            leaves, comes = trip.from_place in places, trip.to_place in places
            if leaves and not comes:
                there = False
            elif comes and not leaves and (cargo, trip.index) in settled:
                there = True
        if now in wanted:
            there = wanted[now] in places
    return thing.count if there else 0


def _asked_at(world: World, row: LossRow | ReachRow | SomeRideRow) -> tuple[set[str], int]:
    """The places and the state that a row is about."""
    if isinstance(row, ReachRow):
        return set(row.place_ids), row.state
    if isinstance(row, LossRow):
        return set(row.place_ids), world.clock.trip_event[row.trip]
    return {world.timeline.trips[row.trip].from_place}, world.clock.trip_event[row.trip] - 1


def _for_things(
    world: World, cargo: Cargo, stops: list[Stop], rides: list[Trip]
) -> tuple[tuple[int, ...], set[int]]:
    events = world.clock.trip_event
    opened = {trip.index for trip in rides}
    musts = set(opened)
    way = [(cargo.born, cargo.birthplace), *stops]
    for trip in rides:
        event = events[trip.index]
        way += [(event - 1, trip.from_place), (event, trip.to_place)]
    way.sort(key=lambda stop: stop[0])
    for (state, here), (next_state, there) in pairwise(way):
        if here != there:
            for hop in _straight(world, state, here, next_state, there):
                opened |= hop
                musts |= hop if len(hop) == 1 else set()
    return tuple(sorted(opened)), musts


def _straight(world: World, state: int, here: str, next_state: int, there: str) -> list[set[int]]:
    """The trips between two states for each leg of the way from one place to another.

    A trip is kept only if trips before and after it can complete the way in time.
    """
    path = world.problem.route.path(here, there)
    hops: list[list[tuple[int, int]]] = []
    for one, other in pairwise(path):
        hops.append(
            [
                (event, trip.index)
                for event in range(state + 1, next_state + 1)
                for trip in world.clock.trips_at[event]
                if trip.from_place == one and trip.to_place == other
            ]
        )
    soonest = state
    for number in range(len(hops)):
        hops[number] = [pair for pair in hops[number] if pair[0] > soonest]
        soonest = min((event for event, _ in hops[number]), default=next_state)
    latest = next_state + 1
    for number in reversed(range(len(hops))):
        hops[number] = [pair for pair in hops[number] if pair[0] < latest]
        latest = max((event for event, _ in hops[number]), default=state)
    return [{index for _, index in hop} for hop in hops]


def _for_stock(
    world: World, cargo: Cargo, stops: list[Stop], helps: list[Stop], held: list[StockRow]
) -> tuple[int, ...]:
    used = [*stops, *((event - 1, place) for event, place, _ in cargo.uses)]
    last_wanted = _last_at_or_beyond(world, used)
    last_helpful = _last_at_or_beyond(world, [*used, *helps])
    last_whole = _last_whole(world, held)
    opened = []
    for trip in world.timeline.trips:
        event = world.clock.trip_event[trip.index]
        outer = trip.to_place if trip.direction is Direction.UP else trip.from_place
        wanted_beyond = last_wanted.get(outer, -1) >= event
        if trip.direction is Direction.UP:
            if last_helpful.get(outer, -1) >= event:
                opened.append(trip.index)
        elif (
            not wanted_beyond
            or event > last_whole.get(outer, event)
            or _goes_down_to_sleep(world, trip)
        ):
            opened.append(trip.index)
    return tuple(opened)


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
