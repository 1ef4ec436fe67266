"""After each trip, whichever one carrier is lost, fuel for some nights is left at its ends.

For each trip and carrier c on it: fuel at the trip's ends − fuel in c ≥ nights × Σ over cook
groups of members there × fuel of tonight's set [mL], for as many nights as the hours make, or
as are left.
"""

from __future__ import annotations

from math import ceil

from solver.model.kit import at_the_ends, by_cook_group, fuel, nights_from, set_tonight
from solver.model.rows import LossRow
from solver.model.world import World


def build(world: World) -> list[LossRow]:
    """One row for each trip with a night after it on which fuel is burnt."""
    most = ceil(world.problem.rules.number("loss_fuel_hours") / 24)
    rows = []
    for trip in world.timeline.trips:
        nights = min(most, nights_from(world, trip.day))
        if not nights:
            continue
        groups = by_cook_group(world, at_the_ends(world, trip))
        need_ml = nights * sum(
            people * set_tonight(world, group_id, trip.day).fuel_ml
            for group_id, people in groups.items()
        )
        if need_ml:
            state = world.clock.trip_event[trip.index]
            rows.append(LossRow("fuel_survives_loss", trip.index, fuel(world, state), need_ml))
    return rows
