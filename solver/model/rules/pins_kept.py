"""What the request pins to a pack or sled on a trip rides in it.

For each pin: units in that carrier ≥ units pinned. A unit that does not exist when the trip begins
gives a row that nothing can keep.
"""

from __future__ import annotations

from solver.model.instance.world import World
from solver.model.rows import PinRow, sled_carrier
from solver.problem import Pin, Trip


def build(world: World) -> list[PinRow]:
    """One row for each pin on a trip that is made."""
    rows = []
    sled_of = {sled.hauler_id: sled.sled_id for sled in world.problem.sleds}
    for number, pin in enumerate(world.problem.pins):
        trip = world.timeline.trip_of(pin.person_id, pin.day, pin.step)
        if trip is not None:
            sled_id = sled_of.get(pin.person_id, "")
            carrier_id = sled_carrier(sled_id) if pin.on_sled else pin.person_id
            cargo = _alive(world, pin, trip)
            rows.append(PinRow("pins_kept", number, trip.index, cargo, carrier_id, pin.count))
    return rows


def _alive(world: World, pin: Pin, trip: Trip) -> int | None:
    """The class of a unit that exists on a trip: an open container is another after each night."""
    before = world.clock.trip_event[trip.index] - 1
    return next(
        (c.index for c in world.cargo if c.unit_id == pin.unit_id and c.is_there(before)), None
    )
