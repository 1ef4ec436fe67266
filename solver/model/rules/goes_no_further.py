"""What goes up to a place is never beyond it.

For each item with such a place and each trip to a place beyond: units standing there when the
trip has ended ≤ 0.
"""

from __future__ import annotations

from solver.model.instance.placement import need_of
from solver.model.instance.world import World
from solver.model.rows import StockRow


def build(world: World) -> list[StockRow]:
    """One row for each item and trip that it must not be on."""
    return [
        StockRow(
            "goes_no_further",
            world.clock.trip_event[trip.index],
            trip.to_place,
            ((cargo.index, -1),),
            0,
        )
        for cargo in world.cargo
        if cargo.item is not None and cargo.item.need.up_to is not None
        for trip in need_of(world, cargo.item).trips_too_far()
    ]
