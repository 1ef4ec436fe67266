"""Each night the bags that a cook group opens stand where it sleeps.

For each night of group g at place p using b bags: bags at p after the night ≥ 0, where the
b bags are already taken off.
"""

from __future__ import annotations

from solver.model.instance.cargo import CargoKind
from solver.model.instance.world import World
from solver.model.rows import StockRow


def build(world: World) -> list[StockRow]:
    """One row for each night on which bags of a cargo are used."""
    return [
        StockRow("night_sets_held", event, place_id, ((cargo.index, 1),), 0)
        for cargo in world.cargo
        if cargo.kind is CargoKind.BAG
        for event, place_id, _ in cargo.uses
    ]
