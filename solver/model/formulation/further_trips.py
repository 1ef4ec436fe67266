"""Trips allowed beyond the straight way, so that a unit can ride along with others."""

from __future__ import annotations

from collections import Counter

from solver.model.instance.world import World
from solver.model.rows import ApartRow, PinRow, RideRow, Row, SomeRideRow


def allow_for_company(world: World, rows: list[Row], allowed: list[tuple[int, ...]]) -> None:
    """Allow every trip to kinds of which a further unit may ride so that others need not part.

    With a third unit in somebody else's pack, two of a kind may ride in one: the one case in
    which a detour makes a load elsewhere smaller. So it is with containers of fuel that must
    be spread, of which full ones may go anywhere.
    """
    everywhere = tuple(trip.index for trip in world.timeline.trips)
    kinds = {row.cargoes for row in rows if isinstance(row, ApartRow) and not row.half}
    for cargoes in sorted(kinds):
        for trip in everywhere:
            riding = [cargo for cargo in cargoes if trip in allowed[cargo]]
            units = sum(world.cargo[cargo].count for cargo in riding)
            if units >= 2 and len(riding) < len(cargoes):
                for cargo in cargoes:
                    allowed[cargo] = everywhere
                break
    for cargoes in sorted({r.cargoes for r in rows if isinstance(r, ApartRow) and r.half}):
        spare = [cargo for cargo in cargoes if world.cargo[cargo].is_stock]
        for trip in everywhere:
            riding = [cargo for cargo in cargoes if trip in allowed[cargo]]
            units = sum(world.cargo[cargo].count for cargo in riding)
            if units >= 2 and not set(spare) <= set(riding):
                for cargo in spare:
                    allowed[cargo] = everywhere
                break


def allow_for_the_day(
    world: World, rows: list[Row], allowed: list[tuple[int, ...]], settled: set[tuple[int, int]]
) -> None:
    """Allow the day's trips of a party to what some of must ride with it on one of them.

    A thing that may go there and back has a choice on every other trip, too.
    """
    forced = {(row.cargo, row.trip) for row in rows if isinstance(row, RideRow)}
    for row in rows:
        if not isinstance(row, SomeRideRow):
            continue
        day, people = world.timeline.trips[row.trip].day, world.timeline.trips[row.trip].person_ids
        trips = {t.index for t in world.timeline.trips if t.day == day and t.person_ids == people}
        for cargo, _ in row.terms:
            if not trips <= set(allowed[cargo]):
                allowed[cargo] = tuple(sorted({*allowed[cargo], *trips}))
                settled -= {
                    (index, trip)
                    for index, trip in settled
                    if index == cargo and (index, trip) not in forced
                }


def allow_for_pins(
    world: World, rows: list[Row], allowed: list[tuple[int, ...]], settled: set[tuple[int, int]]
) -> None:
    """Allow every trip to what a pin may send on a detour.

    That is all counted stock that is pinned, and things that are pinned off their straight way, or
    to more trips over one leg than one way has.
    """
    everywhere = tuple(trip.index for trip in world.timeline.trips)
    forced = {(row.cargo, row.trip) for row in rows if isinstance(row, RideRow)}
    pins: dict[int, list[PinRow]] = {}
    for row in rows:
        if isinstance(row, PinRow) and row.cargo is not None:
            pins.setdefault(row.cargo, []).append(row)
    for cargo, its in pins.items():
        if world.cargo[cargo].is_stock or not _on_one_way(world, cargo, its, allowed[cargo]):
            allowed[cargo] = everywhere
            settled -= {pair for pair in settled if pair[0] == cargo and pair not in forced}


def _on_one_way(world: World, cargo: int, pins: list[PinRow], allowed: tuple[int, ...]) -> bool:
    """Whether units that travel straight can be where a thing is pinned."""
    over: Counter[tuple[str, str]] = Counter()
    for row in pins:
        trip = world.timeline.trips[row.trip]
        over[trip.from_place, trip.to_place] += row.at_least
    return all(row.trip in allowed for row in pins) and all(
        units <= world.cargo[cargo].count for units in over.values()
    )
