"""How far up a trip leads."""

from __future__ import annotations

from solver.model.formulation.frame import Frame


def ascent_m(frame: Frame, trip_index: int) -> int:
    """How much higher the end of a trip is than its beginning, 0 going down [m]."""
    route, trip = frame.world.problem.route, frame.world.timeline.trips[trip_index]
    rise = route.place(trip.to_place).elevation_m - route.place(trip.from_place).elevation_m
    return max(0, rise)
