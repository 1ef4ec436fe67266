"""A person's own items needed on every trip are in that person's pack on every trip.

For each such item i and trip t in its part of the route: units of i on t = all of them, in
the owner's pack. Sleeping kit of somebody whose kit goes to the rope team is in a pack of it.
"""

from __future__ import annotations

from solver.model.instance.placement import need_of
from solver.model.instance.world import World
from solver.model.rows import OwnRow, RideRow
from solver.model.rules.owner_carries import who_carries
from solver.problem import Purpose

TO_SLEEP_IN = frozenset({Purpose.SLEEPING_BAG, Purpose.SLEEPING_PAD, Purpose.DRY_LAYER})
"""What nobody needs before the night, though it be listed as needed on every trip."""


def build(world: World) -> list[RideRow | OwnRow]:
    """A ride for each personal item and trip that it must make, always in the pack."""
    rows: list[RideRow | OwnRow] = []
    for cargo in world.cargo:
        item = cargo.item
        if item is None or item.owner_id is None:
            continue
        trips = need_of(world, item).trips_to_ride()
        rows += [RideRow("day_kit_carried", cargo.index, trip.index) for trip in trips]
        if not trips:
            continue
        on_trips = frozenset(trip.index for trip in trips)
        asleep = item.purpose in TO_SLEEP_IN
        able = who_carries(world, item.owner_id) if asleep else (item.owner_id,)
        rows.append(
            OwnRow("day_kit_carried", cargo.index, able, pack_trips=on_trips, trips=on_trips)
        )
    return rows
