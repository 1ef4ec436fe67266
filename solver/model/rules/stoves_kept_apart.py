"""No two stoves ride in one pack or on one sled: for each trip and carrier, stoves ≤ 1."""

from __future__ import annotations

from solver.model.instance.equipment import units_of
from solver.model.instance.world import World
from solver.model.rows import CountRow
from solver.problem import Purpose


def build(world: World) -> list[CountRow]:
    """One row for each trip, where stoves are taken."""
    stoves = units_of(world, Purpose.STOVE)
    return [
        CountRow("stoves_kept_apart", trip.index, stoves, 1)
        for trip in world.timeline.trips
        if stoves
    ]
