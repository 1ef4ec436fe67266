"""Personal items ride with their owner: in the own pack, or on the sled that the owner hauls.

The items of somebody whose kit goes to the rope team may ride with anybody of it, but for those
that `day_kit_carried` and `vital_kit_on_owner` keep with the owner.
"""

from __future__ import annotations

from solver.model.instance.world import World
from solver.model.rows import OwnRow


def build(world: World) -> list[OwnRow]:
    """One row for each personal item."""
    return [
        OwnRow("owner_carries", cargo.index, who_carries(world, cargo.item.owner_id))
        for cargo in world.cargo
        if cargo.item is not None and cargo.item.owner_id is not None
    ]


def who_carries(world: World, owner_id: str) -> tuple[str, ...]:
    """Who may carry a person's items: the owner, or all of the rope team that the kit goes to."""
    owner = world.problem.person(owner_id)
    if not owner.kit_to_rope_team:
        return (owner_id,)
    team = owner.rope_team_id
    return tuple(p.person_id for p in world.problem.roster if p.rope_team_id == team)
