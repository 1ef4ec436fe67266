"""Rows that keep units of a purpose from riding all in one carrier; rules differ in the purpose.

For each trip, with k ≥ 2 units of it on the trip: units in one carrier ≤ k − 1.
"""

from __future__ import annotations

from solver.model.instance.equipment import things
from solver.model.instance.world import World
from solver.model.rows import ApartRow
from solver.problem import Purpose


def apart(world: World, rule_id: str, purpose: Purpose) -> list[ApartRow]:
    """One row for each trip, where there are things of the purpose."""
    cargoes = tuple(cargo.index for cargo in things(world, purpose))
    return [
        ApartRow(rule_id, trip.index, cargoes, half=False)
        for trip in world.timeline.trips
        if cargoes
    ]
