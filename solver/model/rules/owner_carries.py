"""Personal items ride with their owner: in the own pack, or on the sled that the owner hauls."""

from __future__ import annotations

from solver.model.rows import OwnRow
from solver.model.world import World


def build(world: World) -> list[OwnRow]:
    """One row for each personal item."""
    return [
        OwnRow("owner_carries", cargo.index, cargo.item.owner_id)
        for cargo in world.cargo
        if cargo.item is not None and cargo.item.owner_id is not None
    ]
