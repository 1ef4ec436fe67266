"""Of two or more stove pumps on a trip, not all ride in one pack or on one sled."""

from __future__ import annotations

from solver.model.instance.world import World
from solver.model.rows import ApartRow
from solver.model.rules.purposes_apart import apart
from solver.problem import Purpose


def build(world: World) -> list[ApartRow]:
    """One row for each trip, where any are taken."""
    return apart(world, "pumps_kept_apart", Purpose.PUMP)
