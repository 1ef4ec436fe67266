"""Sled mass for its hauler: tare + units ≤ the hauler's sled cap × the leg's factor [g]."""

from __future__ import annotations

from solver.model.rows import LoadRow
from solver.model.rules.load_caps import sled_rows
from solver.model.world import World
from solver.problem import Person, Sled, Trip
from solver.quantities import share_down


def build(world: World) -> list[LoadRow]:
    """One row, counted in the load fraction, for each sled hauled on each trip."""

    def cap_g(trip: Trip, person: Person, _: Sled) -> int:
        return share_down(amount=person.caps.sled_g, percent=trip.sled_factor_percent)

    return sled_rows(world, "sled_cap_held", cap_g, in_fraction=True)
