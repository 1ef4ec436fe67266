"""Sled mass for its haulers: each one's share of tare + units ≤ their cap × the leg's factor [g].

Written on the whole sled: tare + units ≤ the cap ÷ the share, rounded down.
"""

from __future__ import annotations

from solver.model.instance.world import World
from solver.model.rows import LoadRow
from solver.model.rules.load_caps import sled_rows
from solver.problem import Person, Sled, Trip
from solver.quantities import share_down, whole_down


def build(world: World) -> list[LoadRow]:
    """One row, counted in the load fraction, for each hauler of each sled on each trip."""

    def first_g(trip: Trip, person: Person, sled: Sled) -> int:
        return _whole_sled_g(trip, person, sled.shares()[0][1])

    def second_g(trip: Trip, _: Person, sled: Sled) -> int:
        person_id, percent = sled.shares()[-1]
        return _whole_sled_g(trip, world.problem.person(person_id), percent)

    shared = {sled.hauler_id for sled in world.problem.sleds if sled.second_hauler_id}
    rows = sled_rows(world, "sled_cap_held", first_g, in_fraction=True)
    more = sled_rows(world, "sled_cap_held", second_g, in_fraction=True)
    return rows + [row for row in more if row.person_id in shared]


def _whole_sled_g(trip: Trip, person: Person, percent: int) -> int:
    cap_g = share_down(amount=person.caps.sled_g, percent=trip.sled_factor_percent)
    return whole_down(amount=cap_g, percent=percent)
