"""Food that somebody must not come near rides with nobody of their kitchen.

People are clean of an allergen when one of their kitchen reacts to it. A bag with it rides
with none of them; a bag of a clean kitchen rides with people clean of the same only. Trash of
such food rides with none of them either.
"""

from __future__ import annotations

from solver.model.instance.cargo import Cargo, CargoKind
from solver.model.instance.world import World
from solver.model.rows import OwnRow


def build(world: World) -> list[OwnRow]:
    """One row for each bag and sack of trash that may not ride with everybody."""
    shunned: dict[str, set[str]] = {}
    kitchen_of = {g.cook_group_id: g.kitchen_id for g in world.problem.cook_groups}
    for person in world.problem.roster:
        shunned.setdefault(kitchen_of[person.cook_group_id], set()).update(person.reacts_to)
    everybody = tuple(person.person_id for person in world.problem.roster)
    rows = []
    for cargo in world.cargo:
        if cargo.contains or cargo.kind is CargoKind.BAG:
            able = tuple(
                person.person_id
                for person in world.problem.roster
                if _may_carry(cargo, shunned, kitchen_of, person.cook_group_id)
            )
            if able != everybody:
                rows.append(OwnRow("severe_allergens_apart", cargo.index, able))
    return rows


def _may_carry(
    cargo: Cargo, shunned: dict[str, set[str]], kitchen_of: dict[str, str], cook_group_id: str
) -> bool:
    """Whether people of a cook group may carry a bag or a sack of trash."""
    clean_of = shunned[kitchen_of[cook_group_id]]
    if cargo.night_set is None:
        return clean_of.isdisjoint(cargo.contains)
    own = shunned.get(kitchen_of[cargo.night_set.cook_group_id], set())
    return clean_of.isdisjoint(cargo.night_set.contains) and own <= clean_of
