"""Each night a camp has a stove and a pot for every kitchen whose people sleep there.

For each night and place p where people sleep: stoves at p ≥ kitchens there; pots likewise.
"""

from __future__ import annotations

from solver.model.instance.equipment import is_listed, units_of
from solver.model.instance.world import World
from solver.model.rows import ReachRow
from solver.problem import Purpose


def build(world: World) -> list[ReachRow]:
    """Rows for each night and place, where stoves or pots are listed."""
    rows = []
    for purpose in (Purpose.STOVE, Purpose.POT):
        if not is_listed(world, purpose):
            continue
        units = units_of(world, purpose)
        for night in world.timeline.nights:
            before = world.clock.night_event[night.day] - 1
            cooking = {
                (place, world.problem.kitchen_id(world.problem.person(person).cook_group_id))
                for person, place in night.sleeps_at
            }
            for place_id in dict.fromkeys(place for _, place in night.sleeps_at):
                kitchens = sum(place == place_id for place, _ in cooking)
                rows.append(
                    ReachRow("kitchen_for_each_group", before, (place_id,), units, kitchens)
                )
    return rows
