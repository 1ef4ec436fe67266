"""What is needed by night is where its people sleep.

For each such item and night: units at the place where its people sleep ≥ all of them. Items
needed on every trip are needed by night too, within the same part of the route.
"""

from __future__ import annotations

from solver.model.instance.placement import need_of
from solver.model.instance.world import World
from solver.model.rows import StockRow
from solver.problem import NeedKind


def build(world: World) -> list[StockRow]:
    """One row for each item and night on which its place is settled."""
    rows = []
    for cargo in world.cargo:
        item = cargo.item
        if item is None or item.need.kind not in (NeedKind.EVERY_NIGHT, NeedKind.EVERY_TRIP):
            continue
        need = need_of(world, item)
        for day, event in world.clock.night_event.items():
            place_id = need.place_for_night(day)
            if place_id is not None:
                rows.append(
                    StockRow(
                        "nightly_items_held", event, place_id, ((cargo.index, 1),), cargo.count
                    )
                )
    return rows
