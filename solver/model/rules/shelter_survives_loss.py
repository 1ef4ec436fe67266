"""After each trip, whichever one carrier is lost, everybody still has shelter within reach.

For each trip and carrier c on it: places in the shelters at the places of the party's day −
places in c ≥ people there.
"""

from __future__ import annotations

from solver.model.instance.equipment import is_listed, loss_row, shelter_places, within_reach
from solver.model.instance.world import World
from solver.model.rows import LossRow
from solver.problem import Purpose


def build(world: World) -> list[LossRow]:
    """One row for each trip, where shelters are taken."""
    if not is_listed(world, Purpose.SHELTER):
        return []
    places = shelter_places(world)
    return [
        loss_row(
            world,
            "shelter_survives_loss",
            trip,
            places,
            len(within_reach(world, trip)),
        )
        for trip in world.timeline.trips
    ]
