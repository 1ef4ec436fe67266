"""The preference on keepers: what the request gives to somebody rides with that person."""

from __future__ import annotations

from solver.model.assignment.draft import Held
from solver.model.assignment.load_fractions import hauler_of
from solver.model.formulation.frame import Frame

RULE = "keeper_has_it"


def away_from_keepers(frame: Frame, trip: int, held: Held) -> int:
    """How many things ride with others on a trip of their keeper; 0 if nobody asks."""
    if not frame.world.problem.asks(RULE):
        return 0
    haulers = hauler_of(frame)
    away = set()
    for (cargo, carrier_id), units in held.items():
        keeper_id = keeper_on(frame, cargo, trip)
        if units and keeper_id not in (None, haulers.get(carrier_id, carrier_id)):
            away.add(cargo)
    return len(away)


def keeper_on(frame: Frame, cargo: int, trip: int) -> str | None:
    """Who is to have a cargo on a trip; None where the request names nobody who takes part."""
    item = frame.world.cargo[cargo].item
    keeper_id = None if item is None else item.keeper_id
    there = frame.world.timeline.trips[trip].person_ids
    return keeper_id if keeper_id in there else None
