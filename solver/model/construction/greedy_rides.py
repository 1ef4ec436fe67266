"""A first plan the way a careful guide makes one: the plan that no answer is worse than.

Each unit has an itinerary: the places where it is used or kept, and when. Heaviest first, each
takes the way there whose trips are least full. Where a row is broken then, a unit goes on another
day.
"""

from __future__ import annotations

from collections import Counter

from solver.model.construction.itineraries import itineraries
from solver.model.construction.least_full_way import least_full_way
from solver.model.construction.mend_rides import mend_rides
from solver.model.construction.required_rides import add_required_rides
from solver.model.construction.trip_fill import TripFill
from solver.model.formulation.frame import Frame


def greedy_rides(frame: Frame) -> dict[tuple[int, int], int] | None:
    """Units by (cargo, trip), or None where this way of choosing finds no way."""
    found = itineraries(frame)
    if found is None:
        return None
    fill = TripFill(frame)
    rides: Counter[tuple[int, int]] = Counter()
    for cargo, trip in frame.required_rides:
        for _ in range(frame.world.cargo[cargo].count):
            fill.add(cargo, trip)
    order = sorted(found, key=lambda one: (-frame.world.cargo[one[0]].mass_g, one[0]))
    for cargo, stops in order:
        way = least_full_way(frame, fill, cargo, stops)
        if way is None:
            return None
        for trip in way:
            rides[cargo, trip] += 1
            if (cargo, trip) not in frame.required_rides:
                fill.add(cargo, trip)
    return mend_rides(frame, add_required_rides(frame, rides))
