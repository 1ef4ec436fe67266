"""Pack and sled of somebody who is spared together are at most the limit set for them [g]."""

from __future__ import annotations

from solver.model.instance.world import World
from solver.model.rows import LoadRow
from solver.model.rules.load_caps import haulers_on_trips, on_body_g, people_on_trips


def build(world: World) -> list[LoadRow]:
    """One row for each spared person on each trip."""
    tare_g = {
        (trip.index, person.person_id): sled.tare_g
        for trip, person, sled in haulers_on_trips(world)
    }
    return [
        LoadRow(
            rule_id="load_limit_held",
            trip=trip.index,
            person_id=person.person_id,
            of_mass=True,
            in_pack=True,
            in_sled=True,
            fixed=on_body_g(world, trip, person) + tare_g.get((trip.index, person.person_id), 0),
            cap=person.load_limit_g,
            in_fraction=False,
        )
        for trip, person in people_on_trips(world)
        if person.load_limit_g is not None
    ]
