"""Sled volume: units on the sled ≤ the sled's volume [mL]."""

from __future__ import annotations

from solver.model.instance.world import World
from solver.model.rows import LoadRow
from solver.model.rules.load_caps import haulers_on_trips


def build(world: World) -> list[LoadRow]:
    """One row for each sled hauled on each trip."""
    return [
        LoadRow(
            rule_id="sled_volume_held",
            trip=trip.index,
            person_id=person.person_id,
            of_mass=False,
            in_pack=False,
            in_sled=True,
            fixed=0,
            cap=sled.volume_ml,
            in_fraction=False,
        )
        for trip, person, sled in haulers_on_trips(world)
    ]
