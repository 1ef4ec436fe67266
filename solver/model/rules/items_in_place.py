"""What belongs at a place stands there from its people's first need until they leave.

For each such item: units at its place in every state of that span ≥ all of them. Only trips that
leave the place can change that, so it is asked after each of them. What may not go ahead also
spends each night before with its people.
"""

from __future__ import annotations

from solver.model.instance.placement import need_of
from solver.model.instance.world import World
from solver.model.rows import StockRow
from solver.problem import NeedKind


def build(world: World) -> list[StockRow]:
    """Rows for the span's states that count, and for the nights on the way there."""
    rows = []
    for cargo in world.cargo:
        item = cargo.item
        if item is None or item.need.kind is not NeedKind.AT_PLACE or item.need.up_to is None:
            continue
        need = need_of(world, item)
        span = need.span_at_place()
        if span is None:
            continue
        leaving = (
            world.clock.trip_event[trip.index]
            for trip in world.timeline.trips
            if trip.from_place == item.need.up_to
        )
        states = sorted({*span, *(event for event in leaving if span[0] < event < span[1])})
        stands = [(state, item.need.up_to) for state in states]
        stands += need.nights_on_the_way(span)
        rows += [
            StockRow("items_in_place", state, place_id, ((cargo.index, 1),), cargo.count)
            for state, place_id in stands
        ]
    return rows
