"""A cook group's fuel on a trip is spread: no carrier has more than half, rounded up.

For each trip and cook group, with k full or open containers of it on the trip: 2 × those in
one carrier ≤ k + 1.
"""

from __future__ import annotations

from collections import defaultdict

from solver.model.instance.cargo import CargoKind
from solver.model.instance.world import World
from solver.model.rows import ApartRow


def build(world: World) -> list[ApartRow]:
    """One row for each cook group with fuel and trip."""
    groups: dict[str | None, list[int]] = defaultdict(list)
    for cargo in world.cargo:
        if cargo.kind in (CargoKind.FULL, CargoKind.OPEN):
            groups[cargo.cook_group_id].append(cargo.index)
    return [
        ApartRow("fuel_spread", trip.index, tuple(cargoes), half=True)
        for trip in world.timeline.trips
        for cargoes in groups.values()
    ]
