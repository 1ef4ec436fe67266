"""Pack volume: units ≤ pack volume × (1 + outside allowance) [mL]."""

from __future__ import annotations

from solver.model.instance.world import World
from solver.model.rows import LoadRow
from solver.model.rules.load_caps import people_on_trips
from solver.quantities import share_down


def build(world: World) -> list[LoadRow]:
    """One row for each person on each trip; water and lunch take no volume."""
    percent = 100 + world.problem.rules.pack_volume_allowance_percent
    return [
        LoadRow(
            rule_id="pack_volume_held",
            trip=trip.index,
            person_id=person.person_id,
            of_mass=False,
            in_pack=True,
            in_sled=False,
            fixed=0,
            cap=share_down(amount=person.pack_volume_ml, percent=percent),
            in_fraction=False,
        )
        for trip, person in people_on_trips(world)
    ]
