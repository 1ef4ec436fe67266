"""The caps on masses and volumes, person by person and trip by trip, as rows of one shape.

Each of the rules named here has a module of its own that calls this one: they differ in
what they add up and in the cap, not in how.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from solver.model.instance.world import World
from solver.model.rows import LoadRow
from solver.problem import Person, Sled, Trip


def people_on_trips(world: World) -> Iterator[tuple[Trip, Person]]:
    """Every person on every trip."""
    for trip in world.timeline.trips:
        for person_id in trip.person_ids:
            yield trip, world.problem.person(person_id)


def haulers_on_trips(world: World) -> Iterator[tuple[Trip, Person, Sled]]:
    """Every person who hauls a sled, on every trip on which they do."""
    sleds = {sled.sled_id: sled for sled in world.problem.sleds}
    for trip in world.timeline.trips:
        for sled_id in trip.sled_ids:
            sled = sleds[sled_id]
            yield trip, world.problem.person(sled.hauler_id), sled


def on_body_g(world: World, trip: Trip, person: Person) -> int:
    """Water and lunch in a person's pack on a trip [g]."""
    return world.water_g[trip.day, person.person_id] + world.lunch_g.get(
        (trip.day, person.person_id), 0
    )


def sled_rows(
    world: World, rule_id: str, cap_of: Callable[[Trip, Person, Sled], int], *, in_fraction: bool
) -> list[LoadRow]:
    """Rows on the gross mass of each sled hauled, tare included."""
    return [
        LoadRow(
            rule_id=rule_id,
            trip=trip.index,
            person_id=person.person_id,
            of_mass=True,
            in_pack=False,
            in_sled=True,
            fixed=sled.tare_g,
            cap=cap_of(trip, person, sled),
            in_fraction=in_fraction,
        )
        for trip, person, sled in haulers_on_trips(world)
    ]
