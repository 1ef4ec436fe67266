"""Trips allowed beyond the straight way, so that a unit can ride along with others."""

from __future__ import annotations

from solver.model.instance.world import World
from solver.model.rows import ApartRow, RideRow, Row, SomeRideRow


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
