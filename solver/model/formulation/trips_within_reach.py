"""Trips of things of which some must be within reach, where no other rule brings them there."""

from __future__ import annotations

from solver.model.instance.clock import Stop
from solver.model.instance.world import World
from solver.model.rows import LossRow, ReachRow, RideRow, Row, SomeRideRow


def allow_within_reach(
    world: World,
    rows: list[Row],
    allowed: list[tuple[int, ...]],
    settled: set[tuple[int, int]],
    stops: dict[int, list[Stop]],
) -> None:
    """Allow every trip to things of which some must be within reach and might not be.

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
                world, row, cargo, allowed=allowed[cargo], settled=settled, stops=stops[cargo]
            )
        # One unit of the largest may be alone in the carrier that is lost.
        lost = max((w for _, w in row.terms), default=0) if isinstance(row, LossRow) else 0
        if sure - lost >= row.at_least:
            continue
        for cargo, _ in row.terms:
            if allowed[cargo] != everywhere:
                allowed[cargo] = everywhere
                settled -= {pair for pair in settled if pair[0] == cargo and pair not in forced}


def _surely_there(
    world: World,
    row: LossRow | ReachRow | SomeRideRow,
    cargo: int,
    *,
    allowed: tuple[int, ...],
    settled: set[tuple[int, int]],
    stops: list[Stop],
) -> int:
    """Units of a thing that are where a row asks for them whatever is chosen."""
    places, state = _asked_at(world, row)
    thing = world.cargo[cargo]
    if not thing.is_there(state):
        return 0
    there = all(place in places for place, _ in thing.begins)
    wanted = dict(stops)
    for now in range(thing.born, state + 1):
        for trip in world.clock.trips_at[now] if now > thing.born else ():
            if trip.index not in allowed:
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
