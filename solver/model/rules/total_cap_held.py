"""Pack and sled together: pack + water + lunch + tare + sled ≤ the hauler's total cap [g]."""

from __future__ import annotations

from solver.model.rows import LoadRow
from solver.model.rules.load_caps import haulers_on_trips, on_body_g
from solver.model.world import World


def build(world: World) -> list[LoadRow]:
    """One row, counted in the load fraction, for each hauler with a total cap on each trip."""
    return [
        LoadRow(
            rule_id="total_cap_held",
            trip=trip.index,
            person_id=person.person_id,
            of_mass=True,
            in_pack=True,
            in_sled=True,
            fixed=on_body_g(world, trip, person) + sled.tare_g,
            cap=person.caps.total_g,
            in_fraction=True,
        )
        for trip, person, sled in haulers_on_trips(world)
        if person.caps.total_g is not None
    ]
