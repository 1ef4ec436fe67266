"""A cook group's fuel on a trip is spread: no carrier has more than half, rounded up.

For each trip and cook group, with k full or open containers of it on the trip: 2 × those in
one carrier ≤ k + 1. Shared containers in the gear are spread likewise, all of them together.
"""

from __future__ import annotations

from collections import defaultdict

from solver.model.instance.cargo import CargoKind
from solver.model.instance.world import World
from solver.model.rows import ApartRow
from solver.problem import Purpose


def build(world: World) -> list[ApartRow]:
    """One row for each cook group with fuel, and for the fuel in the gear, on each trip."""
    groups: dict[str | None, list[int]] = defaultdict(list)
    for cargo in world.cargo:
        shared = cargo.item is not None and cargo.item.owner_id is None
        spare = shared and cargo.item is not None and cargo.item.purpose is Purpose.FUEL
        if spare or cargo.kind in (CargoKind.FULL, CargoKind.OPEN):
            groups[cargo.cook_group_id].append(cargo.index)
    return [
        ApartRow("fuel_spread", trip.index, tuple(cargoes), half=True)
        for trip in world.timeline.trips
        for cargoes in groups.values()
    ]
