"""After each trip, whichever one carrier is lost, a communicator is left within reach.

For each trip and carrier c on it: communicators at the places of the party's day + those that
people there wear − those in c ≥ 1.
"""

from __future__ import annotations

from solver.model.instance.equipment import is_listed, loss_row, units_of, within_reach, worn_by
from solver.model.instance.world import World
from solver.model.rows import LossRow
from solver.problem import Purpose


def build(world: World) -> list[LossRow]:
    """One row for each trip on which nobody there wears one, where communicators are taken."""
    if not is_listed(world, Purpose.COMMUNICATOR):
        return []
    carried = units_of(world, Purpose.COMMUNICATOR)
    return [
        loss_row(world, "communicator_survives_loss", trip, carried, 1)
        for trip in world.timeline.trips
        if not worn_by(world, Purpose.COMMUNICATOR, within_reach(world, trip))
    ]
