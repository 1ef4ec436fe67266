"""Of two or more units of one kind on a trip, not all are in one pack or on one sled.

For each trip and kind, with k units of it on the trip: units in one carrier ≤ k − 1 as soon
as k ≥ 2.
"""

from __future__ import annotations

from collections import defaultdict

from solver.model.instance.world import World
from solver.model.rows import ApartRow


def build(world: World) -> list[ApartRow]:
    """One row for each kind and trip."""
    kinds: dict[str, list[int]] = defaultdict(list)
    for cargo in world.cargo:
        if cargo.item is not None and cargo.item.apart_kind is not None:
            kinds[cargo.item.apart_kind].append(cargo.index)
    return [
        ApartRow("kinds_kept_apart", trip.index, tuple(cargoes), half=False)
        for trip in world.timeline.trips
        for cargoes in kinds.values()
    ]
