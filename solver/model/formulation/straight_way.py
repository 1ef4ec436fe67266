"""Trips of things that are kept: straight from one place where a rule wants them to the next."""

from __future__ import annotations

from itertools import pairwise

from solver.model.instance.cargo import Cargo
from solver.model.instance.clock import Stop
from solver.model.instance.world import World
from solver.problem import Trip


def trips_of_thing(
    world: World, cargo: Cargo, stops: list[Stop], rides: list[Trip]
) -> tuple[tuple[int, ...], set[int]]:
    """The trips that a thing may ride, in order, and those of them that it must."""
    events = world.clock.trip_event
    allowed = {trip.index for trip in rides}
    musts = set(allowed)
    wanted = list(stops)
    for trip in rides:
        event = events[trip.index]
        wanted += [(event - 1, trip.from_place), (event, trip.to_place)]
    for begin, _ in cargo.begins:
        way = sorted([(cargo.born, begin), *wanted], key=lambda stop: stop[0])
        for number, ((state, here), (next_state, there)) in enumerate(pairwise(way)):
            if here != there:
                for hop in _straight(world, state, here, next_state, there):
                    allowed |= hop
                    # Of units that begin apart not all make the way to the first stop.
                    together = number > 0 or len(cargo.begins) == 1
                    musts |= hop if len(hop) == 1 and together else set()
    return tuple(sorted(allowed)), musts


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
