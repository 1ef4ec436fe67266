"""A first plan the way a careful guide makes one: the plan that no answer is worse than.

Each unit has an itinerary: the places where it is used or kept, and when. Heaviest first, each
takes the way there whose trips are least full. Where a row is broken then, a unit goes on another
day.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from solver.model.construction.greedy_failure import Stranded
from solver.model.construction.itineraries import itineraries
from solver.model.construction.least_full_way import least_full_way
from solver.model.construction.mend_rides import mend_rides
from solver.model.construction.required_rides import add_required_rides
from solver.model.construction.reserve_itineraries import Itinerary
from solver.model.construction.trip_fill import TripFill
from solver.model.formulation.frame import Frame
from solver.model.instance.clock import Stop


def greedy_rides(
    frame: Frame, more: Sequence[Itinerary] = ()
) -> dict[tuple[int, int], int] | Stranded:
    """Units by (cargo, trip), or what is stranded where this way of choosing finds no way.

    `more` are units taken along beside those that rows ask for.
    """
    found = itineraries(frame)
    if found is None:
        return Stranded()
    fill = TripFill(frame)
    rides: Counter[tuple[int, int]] = Counter()
    for cargo, trip in frame.required_rides:
        for _ in range(frame.world.cargo[cargo].count):
            fill.add(cargo, trip)
    found += more
    order = sorted(found, key=lambda one: (-frame.world.cargo[one[0]].mass_g, one[0]))
    begins = {thing.index: Counter(dict(thing.begins)) for thing in frame.world.cargo}
    for cargo, stops in (*order, *_left_over(frame, order)):
        way = _way_from_nearest(frame, fill, cargo, begins[cargo], stops)
        if way is None:
            return Stranded(cargo, tuple(stops))
        for trip in way:
            rides[cargo, trip] += 1
            if (cargo, trip) not in frame.required_rides:
                fill.add(cargo, trip)
    return mend_rides(frame, add_required_rides(frame, rides))


def _way_from_nearest(
    frame: Frame, fill: TripFill, cargo: int, begins: Counter[str], stops: list[Stop]
) -> list[int] | None:
    """The way of a unit that stands as near to its first stop as any that is not taken yet."""
    path = frame.world.problem.route.path
    there = [place for place, count in begins.items() if count > 0]
    if stops:
        there.sort(key=lambda place: len(path(place, stops[0][1])))
    for place in there:
        way = least_full_way(frame, fill, cargo, place, stops)
        if way is not None:
            begins[place] -= 1
            return way
    return None


def _left_over(frame: Frame, order: list[Itinerary]) -> Iterator[Itinerary]:
    """Counted stock that nobody needs and that stands away from the start must come home."""
    taken = Counter(cargo for cargo, _ in order)
    home: Stop = (frame.world.clock.last, frame.world.problem.start_place)
    for thing in frame.world.cargo:
        if thing.spread and thing.is_stock:
            used = sum(units for _, _, units in thing.uses)
            for _ in range(thing.count - max(taken[thing.index], used)):
                yield thing.index, [home]
