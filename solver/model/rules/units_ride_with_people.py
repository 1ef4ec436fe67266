"""Loads ride in the packs of the party: one pack for each of its members on each trip."""

from __future__ import annotations

from solver.model.instance.world import World
from solver.model.rows import CarrierRow


def build(world: World) -> list[CarrierRow]:
    """A pack for each person on each of their trips."""
    return [
        CarrierRow("units_ride_with_people", trip.index, person_id, person_id, is_sled=False)
        for trip in world.timeline.trips
        for person_id in trip.person_ids
    ]
