"""Pack mass: units + water + lunch ≤ the person's cap for the leg's mode and direction [g]."""

from __future__ import annotations

from solver.model.instance.world import World
from solver.model.rows import LoadRow
from solver.model.rules.load_caps import on_body_g, people_on_trips


def build(world: World) -> list[LoadRow]:
    """One row, counted in the load fraction, for each person on each trip."""
    return [
        LoadRow(
            rule_id="pack_cap_held",
            trip=trip.index,
            person_id=person.person_id,
            of_mass=True,
            in_pack=True,
            in_sled=False,
            fixed=on_body_g(world, trip, person),
            cap=person.caps.pack_on(trip.leg.mode, trip.direction),
            in_fraction=True,
        )
        for trip, person in people_on_trips(world)
    ]
