"""Pack and sled of somebody who is spared together are at most the limit set for them [g].

Pack + water + lunch + tare + sled for who carries alone or hauls alone; for each of two haulers,
pack + water + lunch + their share of the sled's limit on the leg, rounded up, whatever is on it.
The limit is a cap like any other, and so counts in the load fraction.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.model.instance.world import World
from solver.model.rows import LoadRow
from solver.model.rules.load_caps import on_body_g, people_on_trips
from solver.problem import Person, Sled, Trip
from solver.quantities import share_down, share_up


def build(world: World) -> list[LoadRow]:
    """One row for each spared person on each trip."""
    return [
        _row(world, trip, person, person.load_limit_g)
        for trip, person in people_on_trips(world)
        if person.load_limit_g is not None
    ]


def _row(world: World, trip: Trip, person: Person, limit_g: int) -> LoadRow:
    pulled_g, alone = 0, True
    for sled, percent in _pulled(world, trip, person):
        alone = percent == 100
        sled_g = share_down(amount=sled.mass_limit_g, percent=trip.sled_factor_percent)
        pulled_g = sled.tare_g if alone else share_up(amount=sled_g, percent=percent)
    return LoadRow(
        rule_id="load_limit_held",
        trip=trip.index,
        person_id=person.person_id,
        of_mass=True,
        in_pack=True,
        in_sled=alone,
        fixed=on_body_g(world, trip, person) + pulled_g,
        cap=limit_g,
        in_fraction=True,
    )


def _pulled(world: World, trip: Trip, person: Person) -> Iterator[tuple[Sled, int]]:
    """The sled that a person hauls on a trip, alone or with somebody, and the share of it [%]."""
    for sled in world.problem.sleds:
        share = dict(sled.shares()).get(person.person_id)
        if share is not None and sled.sled_id in trip.sled_ids:
            yield sled, share
