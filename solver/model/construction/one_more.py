"""One more container for a trip on which the loss of any one carrier would leave too little."""

from __future__ import annotations

from solver.model.construction.greedy_failure import Unpacked
from solver.model.construction.reserve_itineraries import Itinerary
from solver.model.formulation.flow_balance import stock_terms
from solver.model.formulation.flow_row import Rides
from solver.model.formulation.frame import Frame
from solver.model.rows import LossRow


def one_more(frame: Frame, rides: Rides, unpacked: Unpacked) -> Itinerary | None:
    """The smallest unit of idle stock that makes up for what a trip could lose, and its way.

    It stands where the party of the trip slept, from the night before on. None where the trip
    does not fail by this, or no unit is left at the start.
    """
    missing, row = _missing(frame, unpacked)
    if row is None:
        return None
    idle = [
        (weight, cargo)
        for cargo, weight in row.terms
        if weight > 0 and _is_idle(frame, rides, cargo)
    ]
    if not idle:
        return None
    enough = [one for one in idle if one[0] >= missing]
    _, cargo = min(enough) if enough else max(idle)
    trips, clock = frame.world.timeline.trips, frame.world.clock
    its = trips[unpacked.trip]
    first = next(t for t in trips if t.day == its.day and t.person_ids == its.person_ids)
    home = clock.last, frame.world.problem.start_place
    return cargo, [(clock.trip_event[first.index] - 1, first.from_place), home]


def _missing(frame: Frame, unpacked: Unpacked) -> tuple[int, LossRow | None]:
    """By how much the largest unit that rides is too much to lose, and by which row."""
    worst: tuple[int, LossRow | None] = 0, None
    riding = set(unpacked.load.cargo.tolist())
    for row, most in zip(frame.spread_rows[unpacked.trip], unpacked.slack, strict=True):
        if isinstance(row, LossRow):
            largest = max((weight for cargo, weight in row.terms if cargo in riding), default=0)
            if largest - most > worst[0]:
                worst = largest - most, row
    return worst


def _is_idle(frame: Frame, rides: Rides, cargo: int) -> bool:
    """Whether a unit of counted stock stands at the start from first to last."""
    thing, start = frame.world.cargo[cargo], frame.world.problem.start_place
    if not thing.is_stock:
        return False
    for state in range(thing.born, frame.world.clock.last + 1):
        terms, there = stock_terms(frame, cargo, start, state)
        if there + sum(sign * rides.get(ride, 0) for ride, sign in terms.items()) < 1:
            return False
    return True
