"""The way of one unit through its itinerary, by the trips that are least full."""

from __future__ import annotations

from itertools import pairwise

from solver.model.construction.trip_fill import TripFill
from solver.model.formulation.frame import Frame
from solver.model.instance.clock import Stop


def least_full_way(
    frame: Frame, fill: TripFill, cargo: int, begin: str, stops: list[Stop]
) -> list[int] | None:
    """The trips by which a unit gets from where it begins from stop to stop.

    They are the least full of those that it could take; None where none lead there.
    """
    here: Stop = (frame.world.cargo[cargo].born, begin)
    way: list[int] = []
    for stop in stops:
        if stop[1] != here[1]:
            best = _least_full(frame, fill, cargo, here, stop)
            if best is None:
                return None
            way += best
        here = stop
    return way


def _least_full(
    frame: Frame, fill: TripFill, cargo: int, here: Stop, there: Stop
) -> list[int] | None:
    """Of all ways between two stops, the one whose fullest trip is least full.

    Best[(place, event)] grows event by event, so each trip is looked at once.
    """
    clock, trips = frame.world.clock, frame.world.timeline.trips
    path = frame.world.problem.route.path(here[1], there[1])
    best: dict[str, tuple[int, int, list[int]]] = {here[1]: (0, 0, [])}
    step = dict(pairwise(path))
    for trip in frame.allowed_trips[cargo]:
        event = clock.trip_event[trip]
        leaves, enters = trips[trip].from_place, trips[trip].to_place
        if not here[0] < event <= there[0] or step.get(leaves) != enters or leaves not in best:
            continue
        worst, total, so_far = best[leaves]
        if so_far and clock.trip_event[so_far[-1]] >= event:
            continue
        full = 0 if (cargo, trip) in frame.required_rides else fill.fraction_with(cargo, trip)
        found = (max(worst, full), total + full, [*so_far, trip])
        if enters not in best or found < best[enters]:
            best[enters] = found
    return best[there[1]][2] if there[1] in best else None
