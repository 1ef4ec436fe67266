"""Each night a communicator is at every camp where people sleep, or worn by one of them.

For each night and place p where people sleep: communicators at p + those worn there ≥ 1.
"""

from __future__ import annotations

from solver.model.instance.equipment import is_listed, units_of, worn_by
from solver.model.instance.world import World
from solver.model.rows import ReachRow
from solver.problem import Purpose


def build(world: World) -> list[ReachRow]:
    """A row for each night and place where nobody wears one, where any are listed."""
    if not is_listed(world, Purpose.COMMUNICATOR):
        return []
    units = units_of(world, Purpose.COMMUNICATOR)
    return [
        ReachRow(
            "communicator_at_camp", world.clock.night_event[night.day] - 1, (place_id,), units, 1
        )
        for night in world.timeline.nights
        for place_id in dict.fromkeys(place for _, place in night.sleeps_at)
        if not worn_by(world, Purpose.COMMUNICATOR, night.sleepers_at(place_id))
    ]
