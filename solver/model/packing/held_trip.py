"""A trip as it is packed so far, read into arrays."""

from __future__ import annotations

from solver.model.assignment.by_trip import riding
from solver.model.assignment.draft import Held
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import Slack
from solver.model.packing.empty_trip import empty_trip
from solver.model.packing.trip_load import TripLoad


def load_trip(frame: Frame, trip: int, held: Held, slack: Slack) -> TripLoad:
    """The loads of a trip on which each carrier has what is held."""
    load = empty_trip(frame, trip, riding(held), slack)
    number = {carrier_id: at for at, carrier_id in enumerate(load.carriers)}
    free: dict[int, list[int]] = {}
    for piece, cargo in enumerate(load.cargo.tolist()):
        free.setdefault(cargo, []).append(piece)
    choice = load.has_choice
    for (cargo, carrier_id), units in held.items():
        at = number[carrier_id]
        # Pieces that may go nowhere else stay for their own carrier.
        free[cargo].sort(key=lambda piece: (not load.able[piece, at], choice[piece]), reverse=True)
        for _ in range(units):
            load.put(free[cargo].pop(), at)
    return load
