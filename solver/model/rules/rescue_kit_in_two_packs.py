"""Of two or more rescue kits on a trip, not all ride in one pack or on one sled.

The same holds of those that belong to one rope team, with two people or more of it on the trip:
who falls must not have both.
"""

from __future__ import annotations

from solver.model.instance.equipment import things
from solver.model.instance.world import World
from solver.model.rows import ApartRow
from solver.model.rules.purposes_apart import apart
from solver.problem import Purpose

RULE = "rescue_kit_in_two_packs"


def build(world: World) -> list[ApartRow]:
    """One row for each trip and one for each trip and rope team, where any are taken."""
    of_teams: dict[str, list[int]] = {}
    for cargo in things(world, Purpose.RESCUE_KIT):
        if cargo.item is not None and cargo.item.rope_team_id is not None:
            of_teams.setdefault(cargo.item.rope_team_id, []).append(cargo.index)
    rope = {person.person_id: person.rope_team_id for person in world.problem.everybody}
    return apart(world, RULE, Purpose.RESCUE_KIT) + [
        ApartRow(RULE, trip.index, tuple(cargoes), half=False)
        for trip in world.timeline.trips
        for team, cargoes in of_teams.items()
        if sum(rope[person_id] == team for person_id in trip.person_ids) > 1
    ]
