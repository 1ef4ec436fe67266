"""After each trip, whichever one carrier is lost, a communicator is left at one of its ends.

For each trip and carrier c on it: communicators standing at the trip's ends + those that
people there wear − those in c ≥ 1.
"""

from __future__ import annotations

from solver.model.kit import at_the_ends, is_listed, units_of, worn_by
from solver.model.rows import LossRow
from solver.model.world import World
from solver.problem import Purpose


def build(world: World) -> list[LossRow]:
    """One row for each trip on which nobody there wears one, where communicators are taken."""
    if not is_listed(world, Purpose.COMMUNICATOR):
        return []
    carried = units_of(world, Purpose.COMMUNICATOR)
    return [
        LossRow("communicator_survives_loss", trip.index, carried, 1)
        for trip in world.timeline.trips
        if not worn_by(world, Purpose.COMMUNICATOR, at_the_ends(world, trip))
    ]
