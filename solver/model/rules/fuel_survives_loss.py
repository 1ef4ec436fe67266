"""After each trip, whichever one carrier is lost, fuel for some nights is left within reach.

For each trip and carrier c on it: fuel at the places of the party's day − fuel in c ≥ nights ×
Σ over cook groups of members there × fuel of tonight's set [mL], for as many nights as the
hours make, or as are left.
"""

from __future__ import annotations

from math import ceil

from solver.model.instance.equipment import (
    by_cook_group,
    fuel,
    loss_row,
    nights_from,
    set_tonight,
    within_reach,
)
from solver.model.instance.world import World
from solver.model.rows import LossRow


def build(world: World) -> list[LossRow]:
    """One row for each trip with a night after it on which fuel is burnt."""
    most = ceil(world.problem.rules.number("loss_fuel_hours") / 24)
    rows = []
    for trip in world.timeline.trips:
        nights = min(most, nights_from(world, trip.day))
        if not nights:
            continue
        groups = by_cook_group(world, within_reach(world, trip))
        need_ml = nights * sum(
            people * set_tonight(world, group_id, trip.day).fuel_ml
            for group_id, people in groups.items()
        )
        if need_ml:
            state = world.clock.trip_event[trip.index]
            rows.append(
                loss_row(
                    world,
                    "fuel_survives_loss",
                    trip,
                    fuel(world, state),
                    need_ml,
                )
            )
    return rows
