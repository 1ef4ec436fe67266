"""Pack and sled together ≤ the hauler's total cap [g].

Pack + water + lunch + tare + sled for the one hauler of a sled; for each of two, pack + water +
lunch + their share of the sled's limit on the leg, rounded up, whatever is on it.
"""

from __future__ import annotations

from solver.model.instance.world import World
from solver.model.rows import LoadRow
from solver.model.rules.load_caps import haulers_on_trips, on_body_g
from solver.problem import Person, Sled, Trip
from solver.quantities import share_down, share_up


def build(world: World) -> list[LoadRow]:
    """One row for each hauler with a total cap on each trip."""
    return [
        row
        for trip, _, sled in haulers_on_trips(world)
        for person_id, percent in sled.shares()
        for row in _row(world, trip, world.problem.person(person_id), sled, percent)
    ]


def _row(world: World, trip: Trip, person: Person, sled: Sled, percent: int) -> list[LoadRow]:
    """The row of one hauler; it counts in the load fraction where the sled is theirs alone."""
    if person.caps.total_g is None:
        return []
    limit_g = share_down(amount=sled.mass_limit_g, percent=trip.sled_factor_percent)
    alone = percent == 100
    pulled_g = sled.tare_g if alone else share_up(amount=limit_g, percent=percent)
    return [
        LoadRow(
            rule_id="total_cap_held",
            trip=trip.index,
            person_id=person.person_id,
            of_mass=True,
            in_pack=True,
            in_sled=alone,
            fixed=on_body_g(world, trip, person) + pulled_g,
            cap=person.caps.total_g,
            in_fraction=alone,
        )
    ]
