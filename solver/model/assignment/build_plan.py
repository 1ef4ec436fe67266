"""From a draft to the plan that it stands for: loads by trip, stock by night."""

from __future__ import annotations

from collections import defaultdict

from solver.model.assignment.draft import Draft
from solver.model.assignment.keepers import keepers_of
from solver.model.formulation.frame import Frame
from solver.model.rows import sled_carrier
from solver.plan import Load, NightStock, Plan, Stowed, TripLoads


def build_plan(frame: Frame, draft: Draft) -> Plan:
    """The plan that a draft stands for; units within a load are in the order of the cargo."""
    return Plan(
        trips=_trips(frame, draft), stock=_stock(frame, draft), keepers=keepers_of(frame, draft)
    )


def _trips(frame: Frame, draft: Draft) -> tuple[TripLoads, ...]:
    world = frame.world
    stowed: dict[tuple[int, str], list[Stowed]] = defaultdict(list)
    for (cargo, number, carrier_id), units in sorted(draft.carried.items()):
        if units:
            stowed[number, carrier_id].append(
                Stowed(
                    world.cargo[cargo].unit_id,
                    units,
                    frame.weight(cargo, number, of_mass=True),
                    frame.weight(cargo, number, of_mass=False),
                )
            )
    hauler = {sled.hauler_id: sled.sled_id for sled in world.problem.sleds}
    told = []
    for trip in world.timeline.trips:
        loads = []
        for person_id in trip.person_ids:
            sled_id = hauler.get(person_id)
            if sled_id not in trip.sled_ids:
                sled_id = None
            loads.append(
                Load(
                    person_id=person_id,
                    water_g=world.water_g[trip.day, person_id],
                    lunch_g=world.lunch_g.get((trip.day, person_id), 0),
                    pack=tuple(stowed[trip.index, person_id]),
                    sled_id=sled_id,
                    sled=tuple(stowed[trip.index, sled_carrier(sled_id)]) if sled_id else (),
                )
            )
        told.append(TripLoads(trip.day, trip.step, trip.from_place, trip.to_place, tuple(loads)))
    return tuple(told)


def _stock(frame: Frame, draft: Draft) -> tuple[NightStock, ...]:
    world, clock = frame.world, frame.world.clock
    standing: dict[tuple[int, str], int] = defaultdict(int)
    change: dict[int, list[tuple[int, str, int]]] = defaultdict(list)
    for (cargo, trip_index), units in draft.rides().items():
        trip = world.timeline.trips[trip_index]
        event = clock.trip_event[trip_index]
        change[event] += [(cargo, trip.from_place, -units), (cargo, trip.to_place, units)]
    for thing in world.cargo:
        for place_id, count in thing.begins:
            change[thing.born].append((thing.index, place_id, count))
        for event, place_id, units in thing.uses:
            change[event].append((thing.index, place_id, -units))
        if thing.dies is not None:
            change[thing.dies].append((thing.index, thing.deathplace, -thing.count))
    shown: dict[int, list[int]] = defaultdict(list)
    shown[0].append(0)
    for day, event in clock.night_event.items():
        shown[event].append(day)
    # On a last day without travel everything stands as it did after the night before.
    shown[clock.last].append(len(world.problem.calendar.days))
    nights = []
    for state in range(clock.last + 1):
        for cargo, place_id, units in change[state]:
            standing[cargo, place_id] += units
        for day in shown.get(state, ()):
            nights += [
                NightStock(day, place.place_id, there)
                for place in world.problem.route.places
                if (there := _standing_at(frame, standing, place.place_id))
            ]
    return tuple(nights)


def _standing_at(
    frame: Frame, standing: dict[tuple[int, str], int], place_id: str
) -> tuple[Stowed, ...]:
    return tuple(
        Stowed(thing.unit_id, units, thing.mass_g, thing.volume_ml)
        for thing in frame.world.cargo
        if (units := standing.get((thing.index, place_id), 0))
    )
