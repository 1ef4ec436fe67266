"""Rides added to the greedy plan: units of which at least some must ride along on a day trip.

Where a party comes back to where it slept, what stands there can ride the whole way round and
is where it was by night, so that nothing else changes.
"""

from __future__ import annotations

from collections import defaultdict

from solver.model.formulation.flow_balance import left_after_loss, stock_terms
from solver.model.formulation.flow_row import Rides
from solver.model.formulation.frame import Frame
from solver.model.instance.placement import need_of
from solver.model.rows import LossRow, SomeRideRow


def add_required_rides(frame: Frame, rides: Rides) -> dict[tuple[int, int], int]:
    """The rides with the lightest units added that rows on days out and back ask for.

    Units whose own loss would leave too little go last.
    """
    taken = dict(rides)
    trips = frame.world.timeline.trips
    days: dict[tuple[int, tuple[str, ...]], list[SomeRideRow]] = defaultdict(list)
    for row in frame.some_ride_rows:
        days[trips[row.trip].day, trips[row.trip].person_ids].append(row)
    for (day, people), rows in days.items():
        way = [t.index for t in trips if t.day == day and t.person_ids == people]
        if trips[way[0]].from_place == trips[way[-1]].to_place:
            for row in rows:
                _add(frame, taken, row, way)
    return taken


def _add(frame: Frame, rides: dict[tuple[int, int], int], row: SomeRideRow, way: list[int]) -> None:
    """Add units to every trip of a way round until a row is kept, or none is left."""
    missing = row.at_least - sum(w * rides.get((c, row.trip), 0) for c, w in row.terms)
    world = frame.world
    lightest = sorted(
        row.terms,
        key=lambda term: (
            _must_not_be_lost(frame, rides, term[0], way),
            world.cargo[term[0]].mass_g / term[1],
        ),
    )
    before = world.clock.trip_event[way[0]] - 1
    camp = world.timeline.trips[way[0]].from_place
    for cargo, weight in lightest:
        too_far = _too_far(frame, cargo)
        if any((cargo, trip) not in frame.may_carry or trip in too_far for trip in way):
            continue
        terms, there = stock_terms(frame, cargo, camp, before)
        there += sum(sign * rides.get(ride, 0) for ride, sign in terms.items())
        free = there - max(rides.get((cargo, trip), 0) for trip in way)
        while missing > 0 and free > 0 and world.cargo[cargo].is_there(before):
            for trip in way:
                rides[cargo, trip] = rides.get((cargo, trip), 0) + 1
            missing, free = missing - weight, free - 1


def _must_not_be_lost(
    frame: Frame, rides: dict[tuple[int, int], int], cargo: int, way: list[int]
) -> bool:
    """Whether too little would be left if one unit were lost on any trip of a way.

    On a way round, what rides is within reach all the time, so that riding changes nothing.
    """
    for loss in (row for trip in way for row in frame.spread_rows[trip]):
        if isinstance(loss, LossRow):
            left = left_after_loss(frame, loss)
            spare = left.constant + sum(n * rides.get(ride, 0) for ride, n in left.terms)
            if dict(loss.terms).get(cargo, 0) > spare:
                return True
    return False


def _too_far(frame: Frame, cargo: int) -> frozenset[int]:
    """Trips to a place beyond the one that an item goes up to."""
    item = frame.world.cargo[cargo].item
    if item is None or item.need.up_to is None:
        return frozenset()
    return frozenset(trip.index for trip in need_of(frame.world, item).trips_too_far())
