"""From a plan back to the numbers of a search, so that a search can begin from it."""

from __future__ import annotations

from collections import defaultdict

from solver.model.assignment.draft import Draft
from solver.model.formulation.frame import Frame
from solver.model.rows import sled_carrier
from solver.plan import Load, Plan, Stowed


def read_plan(frame: Frame, plan: Plan) -> Draft | None:
    """The draft that a plan tells; None where it does something that the frame does not open.

    The plan must keep every rule. One that carries things on a detour cannot be told as a
    draft; it may still be the best there is.
    """
    world = frame.world
    if len(plan.trips) != len(world.timeline.trips):
        return None
    of_unit: dict[str, list[int]] = defaultdict(list)
    for thing in world.cargo:
        of_unit[thing.unit_id].append(thing.index)
    carried: dict[tuple[int, int, str], int] = {}
    for trip, loads in enumerate(plan.trips):
        for carrier_id, line in _lines(loads.loads):
            cargo = _alive(frame, of_unit[line.unit_id], trip)
            if cargo is None or (cargo, trip) not in frame.may_carry:
                return None
            key = (cargo, trip, carrier_id)
            carried[key] = carried.get(key, 0) + line.count
    return Draft(carried)


def _lines(loads: tuple[Load, ...]) -> list[tuple[str, Stowed]]:
    """Every line of the loads with the carrier that it is in."""
    lines = [(load.person_id, line) for load in loads for line in load.pack]
    lines += [
        (sled_carrier(load.sled_id), line)
        for load in loads
        if load.sled_id is not None
        for line in load.sled
    ]
    return lines


def _alive(frame: Frame, cargoes: list[int], trip: int) -> int | None:
    """Which of a unit's classes exists on a trip: an open container changes with each night."""
    event = frame.world.clock.trip_event[trip]
    for cargo in cargoes:
        thing = frame.world.cargo[cargo]
        if thing.born < event and (thing.dies is None or event <= thing.dies):
            return cargo
    return None
