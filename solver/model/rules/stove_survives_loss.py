"""After each trip, whichever one carrier is lost, a stove is left within reach.

For each trip with a night to come and each carrier c on it: stoves at the places of the party's
day − stoves in c ≥ 1.
"""

from __future__ import annotations

from solver.model.instance.equipment import loss_row, nights_from, units_of
from solver.model.instance.world import World
from solver.model.rows import LossRow
from solver.problem import Purpose


def build(world: World) -> list[LossRow]:
    """One row for each trip with a night after it, where stoves are taken."""
    stoves = units_of(world, Purpose.STOVE)
    return [
        loss_row(world, "stove_survives_loss", trip, stoves, 1)
        for trip in world.timeline.trips
        if stoves and nights_from(world, trip.day)
    ]
