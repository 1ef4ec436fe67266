"""Rides eased where a trip cannot be packed: units go the same way on another day.

A careful guide does the same: what does not fit on one day goes a day earlier or later.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.model.construction.mend_rides import RowValues, Step
from solver.model.construction.trip_fill import TripFill
from solver.model.formulation.flow_row import Rides
from solver.model.formulation.frame import Frame

_MOST_STEPS = 100
"""Units that are moved off a trip at most [1]."""


def ease_trip(frame: Frame, rides: Rides, trip: int) -> dict[tuple[int, int], int] | None:
    """The rides with a trip as little full as one unit after the other makes it; None if none can.

    Every row on rides stays as it is kept. A unit moves only to a trip that stays less full than
    this one was.
    """
    values, fill = RowValues.of(frame, rides), TripFill(frame)
    for (cargo, its_trip), units in rides.items():
        for _ in range(units):
            fill.add(cargo, its_trip)
    has_moved = False
    for _ in range(_MOST_STEPS):
        full = fill.fraction(trip)
        best: tuple[int, Step] | None = None
        for cargo, other in _others(frame, values.rides, trip):
            then = fill.fraction_with(cargo, other)
            if then < full and (best is None or then < best[0]):
                step = cargo, trip, other
                if values.stay_kept(step):
                    best = then, step
        if best is None:
            break
        cargo, _, other = best[1]
        values.take(best[1])
        fill.add(cargo, trip, units=-1)
        fill.add(cargo, other)
        has_moved = True
    return dict(values.rides) if has_moved else None


def _others(frame: Frame, rides: Rides, trip: int) -> Iterator[tuple[int, int]]:
    """Cargoes of which a unit may leave a trip, each with another trip over the same leg."""
    trips = frame.world.timeline.trips
    ends = trips[trip].from_place, trips[trip].to_place
    for cargo in frame.allowed_cargo[trip]:
        if rides.get((cargo, trip), 0) > 0 and (cargo, trip) not in frame.settled:
            for other in frame.allowed_trips[cargo]:
                if other != trip and (trips[other].from_place, trips[other].to_place) == ends:
                    yield cargo, other
