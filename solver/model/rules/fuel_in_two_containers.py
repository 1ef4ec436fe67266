"""When a cook group comes to stay, its fuel there is in two containers or more.

For the first night of each stay of a group at p where it burns fuel: containers of the group
at p before the night, full or open ≥ 2.
"""

from __future__ import annotations

from solver.model.instance.equipment import burnt_ml, fuel
from solver.model.instance.world import World
from solver.model.rows import ReachRow


def build(world: World) -> list[ReachRow]:
    """A row for each stay of each cook group that burns fuel there."""
    rows = []
    for group in world.problem.cook_groups:
        members = world.problem.members(group.cook_group_id)
        if not group.containers or not members:
            continue
        before_place = None
        for night in world.timeline.nights:
            place_id = night.place_of(members[0].person_id)
            burns = burnt_ml(world, group, night.day) > 0
            if place_id != before_place and burns:
                state = world.clock.night_event[night.day] - 1
                each = tuple((cargo, 1) for cargo, _ in fuel(world, state, group.cook_group_id))
                rows.append(ReachRow("fuel_in_two_containers", state, (place_id,), each, 2))
            before_place = place_id
    return rows
