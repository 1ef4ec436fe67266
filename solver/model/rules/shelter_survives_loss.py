"""After each trip, whichever one carrier is lost, everybody at its ends still has shelter.

For each trip and carrier c on it: places in the shelters at the trip's ends − places in c ≥
people there.
"""

from __future__ import annotations

from solver.model.kit import at_the_ends, is_listed, shelter_places
from solver.model.rows import LossRow
from solver.model.world import World
from solver.problem import Purpose


def build(world: World) -> list[LossRow]:
    """One row for each trip, where shelters are taken."""
    if not is_listed(world, Purpose.SHELTER):
        return []
    places = shelter_places(world)
    return [
        LossRow("shelter_survives_loss", trip.index, places, len(at_the_ends(world, trip)))
        for trip in world.timeline.trips
    ]
