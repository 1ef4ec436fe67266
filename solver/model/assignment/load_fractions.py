"""What a draft's loads come to: masses against caps, trip by trip, and what most goals are."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from itertools import pairwise

from solver.model.assignment.draft import Draft
from solver.model.formulation.frame import Frame
from solver.model.rows import sled_carrier
from solver.problem import Item, NeedKind
from solver.quantities import fraction_up


def _haulers(frame: Frame) -> dict[str, str]:
    """Who hauls each sled, by the sled's carrier id."""
    return {sled_carrier(s.sled_id): s.hauler_id for s in frame.world.problem.sleds}


def trip_fractions(frame: Frame, draft: Draft) -> list[int]:
    """The largest load fraction of each trip [1/10,000]."""
    return [max(people.values(), default=0) for people in person_fractions(frame, draft)]


def person_fractions(frame: Frame, draft: Draft) -> list[dict[str, int]]:
    """For each trip the largest load fraction of each person [1/10,000]."""
    load_g: dict[tuple[int, str, bool], int] = defaultdict(int)
    sleds = _haulers(frame)
    for (cargo, trip, carrier_id), units in draft.carried.items():
        person_id = sleds.get(carrier_id, carrier_id)
        load_g[trip, person_id, carrier_id in sleds] += units * frame.weight(
            cargo, trip, of_mass=True
        )
    by_trip = []
    for trip, rows in enumerate(frame.load_rows):
        fractions: dict[str, int] = {}
        for row in rows:
            if row.in_fraction:
                load = row.fixed
                load += load_g[trip, row.person_id, False] if row.in_pack else 0
                load += load_g[trip, row.person_id, True] if row.in_sled else 0
                fraction = fraction_up(load_g=load, cap_g=row.cap)
                fractions[row.person_id] = max(fraction, fractions.get(row.person_id, 0))
        by_trip.append(fractions)
    return by_trip


def ascent_m(frame: Frame, trip_index: int) -> int:
    """Height gained from one end of a trip to the other, 0 going down [m]."""
    route, trip = frame.world.problem.route, frame.world.timeline.trips[trip_index]
    rise = route.place(trip.to_place).elevation_m - route.place(trip.from_place).elevation_m
    return max(0, rise)


def mass_ascent(frame: Frame, draft: Draft) -> int:
    """Σ over trips that climb of everything in packs and on sleds × height gained [g·m]."""
    return fixed_mass_ascent(frame) + ascent_of_rides(frame, draft.rides())


def ascent_of_rides(frame: Frame, rides: Mapping[tuple[int, int], int]) -> int:
    """The part of mass × height that rides make [g·m]."""
    climbs_m = [ascent_m(frame, trip) for trip in range(len(frame.carriers))]
    return sum(
        units * frame.weight(cargo, trip, of_mass=True) * climbs_m[trip]
        for (cargo, trip), units in rides.items()
        if climbs_m[trip]
    )


def fixed_mass_ascent(frame: Frame) -> int:
    """The part of mass × height that no plan changes: water, lunch and sleds [g·m]."""
    world = frame.world
    tare_g = {sled.sled_id: sled.tare_g for sled in world.problem.sleds}
    total = 0
    for trip in world.timeline.trips:
        on_body_g = sum(
            world.water_g[trip.day, person] + world.lunch_g.get((trip.day, person), 0)
            for person in trip.person_ids
        )
        on_sleds_g = sum(tare_g[sled_id] for sled_id in trip.sled_ids)
        total += (on_body_g + on_sleds_g) * ascent_m(frame, trip.index)
    return total


def hand_overs(frame: Frame, draft: Draft) -> int:
    """Units that change the person who carries them from one of their trips to the next.

    A person's own things of every trip are left out.
    """
    sleds = _haulers(frame)
    by_unit: dict[str, dict[int, dict[str, int]]] = defaultdict(lambda: defaultdict(dict))
    for (cargo, trip, carrier_id), units in draft.carried.items():
        thing = frame.world.cargo[cargo]
        if units and not _is_day_kit(thing.item):
            person_id = sleds.get(carrier_id, carrier_id)
            held = by_unit[thing.unit_id][trip]
            held[person_id] = held.get(person_id, 0) + units
    changed = 0
    for its_trips in by_unit.values():
        order = sorted(its_trips)
        for earlier, later in pairwise(order):
            before, after = its_trips[earlier], its_trips[later]
            kept = sum(min(units, before.get(person, 0)) for person, units in after.items())
            changed += sum(after.values()) - kept
    return changed


def _is_day_kit(item: Item | None) -> bool:
    return item is not None and item.owner_id is not None and item.need.kind is NeedKind.EVERY_TRIP
