"""Shared items needed on the move ride on every trip of their party, out and back.

For each such item i and trip t in its part of the route: units of i on t = all of them.
"""

from __future__ import annotations

from solver.model.instance.placement import need_of
from solver.model.instance.world import World
from solver.model.rows import RideRow


def build(world: World) -> list[RideRow]:
    """One row for each shared item and trip that it must ride."""
    return [
        RideRow("party_kit_carried", cargo.index, trip.index)
        for cargo in world.cargo
        if cargo.item is not None and cargo.item.owner_id is None
        for trip in need_of(world, cargo.item).trips_to_ride()
    ]
