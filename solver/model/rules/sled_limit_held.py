"""Sled mass for the sled itself: tare + units ≤ the sled's limit × the leg's factor [g]."""

from __future__ import annotations

from solver.model.instance.world import World
from solver.model.rows import LoadRow
from solver.model.rules.load_caps import sled_rows
from solver.problem import Person, Sled, Trip
from solver.quantities import share_down


def build(world: World) -> list[LoadRow]:
    """One row for each sled hauled on each trip."""

    def cap_g(trip: Trip, _: Person, sled: Sled) -> int:
        return share_down(amount=sled.mass_limit_g, percent=trip.sled_factor_percent)

    return sled_rows(world, "sled_limit_held", cap_g, in_fraction=False)
