"""The preference on shared rope, rescue and medical kit: with guides or at the ends of a rope."""

from __future__ import annotations

from collections.abc import Iterator

from solver.model.goals.party import Mover, ropes_of
from solver.model.goals.soft_constraint import Inequality, SoftConstraint
from solver.model.instance.placement import need_of
from solver.model.instance.world import World
from solver.problem import NeedKind, Purpose, Trip

_EQUIPMENT = frozenset({Purpose.ROPE, Purpose.RESCUE_KIT, Purpose.MEDICAL_KIT})


def equipment_constraints(world: World, trip: Trip, party: list[Mover]) -> Iterator[SoftConstraint]:
    """No equipment with anybody between the ends of a rope who is no guide."""
    equipment = _equipment_of(world, trip)
    between = [one for rope in ropes_of(party) for one in rope[1:-1] if not one.person.is_guide]
    for one in between if equipment else ():
        equipment_in = (one.person.person_id, *((one.sled_id,) if one.sled_id else ()))
        yield SoftConstraint(
            "guides_carry_rescue_kit", (Inequality(0, equipment_in=equipment_in),), equipment
        )


def _equipment_of(world: World, trip: Trip) -> frozenset[int]:
    """The shared rope, rescue and medical equipment that must ride on a trip."""
    return frozenset(
        cargo.index
        for cargo in world.cargo
        if cargo.item is not None
        and cargo.item.purpose in _EQUIPMENT
        and cargo.item.owner_id is None
        and cargo.item.need.kind is NeedKind.EVERY_TRIP
        and trip in need_of(world, cargo.item).trips_to_ride()
    )
