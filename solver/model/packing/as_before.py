"""One trip with every unit in the pack or on the sled that it was in before."""

from __future__ import annotations

from solver.model.assignment.draft import Held
from solver.model.formulation.former import Former
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import Slack
from solver.model.packing.held_trip import load_trip


def as_before(
    frame: Frame, trip: int, riding: dict[int, int], slack: Slack, *, former: Former, limit: int
) -> Held | None:
    """The former loads of what rides, under a limit [1/10,000]; None where something must move.

    What is pinned is not looked at here: then it is None as well.
    """
    if any(frame.pinned(cargo, trip) for cargo in riding):
        return None
    there = former.packed[trip].copy()
    held: Held = {}
    for cargo, units in riding.items():
        unit_id, left = frame.world.cargo[cargo].unit_id, units
        for carrier in frame.may_carry[cargo, trip]:
            count = min(left, there[unit_id, carrier.carrier_id])
            if count > 0:
                held[cargo, carrier.carrier_id] = count
                there[unit_id, carrier.carrier_id] -= count
                left -= count
        if left:
            return None
    return held if load_trip(frame, trip, held, slack).peak() <= limit else None
