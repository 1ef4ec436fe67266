"""A sled takes loads only on trips on which its hauler pulls it, all along sled legs."""

from __future__ import annotations

from solver.model.instance.world import World
from solver.model.rows import CarrierRow, sled_carrier


def build(world: World) -> list[CarrierRow]:
    """A sled for each trip on which the timeline has it hauled."""
    hauler = {sled.sled_id: sled.hauler_id for sled in world.problem.sleds}
    return [
        CarrierRow(
            "sled_only_on_sled_legs",
            trip.index,
            hauler[sled_id],
            sled_carrier(sled_id),
            is_sled=True,
        )
        for trip in world.timeline.trips
        for sled_id in trip.sled_ids
    ]
