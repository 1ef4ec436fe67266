"""Ropes, rescue kit and medical kit of a rope team ride with people of that team only.

For each such item: units with anybody of another team = 0. So nobody ever has two teams' kits,
though a rope in use weighs nothing in any pack.
"""

from __future__ import annotations

from solver.model.instance.world import World
from solver.model.rows import OwnRow
from solver.problem import Purpose

_KIT = frozenset({Purpose.ROPE, Purpose.RESCUE_KIT, Purpose.MEDICAL_KIT})


def build(world: World) -> list[OwnRow]:
    """One row for each piece of kit that is a rope team's."""
    rows = []
    for cargo in world.cargo:
        item = cargo.item
        if item is None or item.rope_team_id is None or item.purpose not in _KIT:
            continue
        team = (p.person_id for p in world.problem.roster if p.rope_team_id == item.rope_team_id)
        rows.append(OwnRow("team_kit_in_team", cargo.index, tuple(team)))
    return rows
