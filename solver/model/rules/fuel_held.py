"""Each night the containers that a cook group burns from stand where it sleeps.

Full ones: containers at p after the night ≥ 0, those opened already taken off. The one
opened before: 1 at p in the state before the night.
"""

from __future__ import annotations

from solver.model.instance.cargo import CargoKind
from solver.model.instance.world import World
from solver.model.rows import StockRow


def build(world: World) -> list[StockRow]:
    """A row for each opening, and one for each night that draws on an open container."""
    rows = [
        StockRow("fuel_held", event, place_id, ((cargo.index, 1),), 0)
        for cargo in world.cargo
        if cargo.kind is CargoKind.FULL
        for event, place_id, _ in cargo.uses
    ]
    rows += [
        StockRow("fuel_held", cargo.dies - 1, cargo.deathplace, ((cargo.index, 1),), 1)
        for cargo in world.cargo
        if cargo.kind is CargoKind.OPEN and cargo.dies is not None
    ]
    return rows
