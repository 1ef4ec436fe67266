"""Personal items ride with their owner: in the own pack, or on the sled that the owner hauls.

The items of somebody who is spared, with a load limit and the wish said, may ride with anybody
of the rope team.
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
    """Who may carry a person's items: the owner, or all of the rope team of one who is spared."""
    owner = world.problem.person(owner_id)
    if owner.load_limit_g is None or not owner.kit_to_rope_team:
        return (owner_id,)
    team = owner.rope_team_id
    return tuple(p.person_id for p in world.problem.roster if p.rope_team_id == team)
