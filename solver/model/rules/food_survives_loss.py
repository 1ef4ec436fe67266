"""After each trip, whichever one carrier is lost, each cook group has food left within reach.

For each trip, cook group with members at the places of the party's day, and carrier c on it:
night sets of the group there − those in c ≥ members there × nights, for as many nights as the
hours make, or as are left.
"""

from __future__ import annotations

from math import ceil

from solver.model.instance.equipment import (
    by_cook_group,
    loss_row,
    night_sets,
    nights_from,
    within_reach,
)
from solver.model.instance.world import World
from solver.model.rows import LossRow


def build(world: World) -> list[LossRow]:
    """One row for each trip with a night after it, and cook group there."""
    most = ceil(world.problem.rules.number("loss_food_hours") / 24)
    return [
        loss_row(
            world,
            "food_survives_loss",
            trip,
            night_sets(world, group_id),
            people * nights,
        )
        for trip in world.timeline.trips
        if (nights := min(most, nights_from(world, trip.day)))
        for group_id, people in by_cook_group(world, within_reach(world, trip)).items()
    ]
