"""Empty containers wait where they were emptied, or go on to where people sleep.

Carried homeward a day early, an empty may end up alone at a place where nobody sleeps. No goal
counts that, so a search is as likely to do it as not.
"""

from __future__ import annotations

from collections.abc import Sequence

from solver.model.assignment.by_trip import by_trip, join
from solver.model.assignment.draft import Draft, Held
from solver.model.construction.mend_rides import RowValues
from solver.model.formulation.frame import Frame
from solver.model.formulation.spread_slack import Slack, spread_slack
from solver.model.instance.cargo import CargoKind
from solver.model.packing.held_trip import load_trip


def empties_wait(frame: Frame, draft: Draft, limits: Sequence[int]) -> Draft:
    """The draft with empties moved to later trips, as far as these stay under their limits.

    An empty that ends a day alone goes over that leg with the last trip that it may ride. Every
    row is kept, and no trip gets above its limit [1/10,000].
    """
    values, held = RowValues.of(frame, draft.rides()), by_trip(frame, draft)
    slack = spread_slack(frame, draft.rides())
    for thing in frame.world.cargo:
        if thing.kind is not CargoKind.EMPTY:
            continue
        # The last trip first: until then the empty waits at the place before.
        for trip in reversed(frame.allowed_trips[thing.index]):
            later = _later(frame, values, thing.index, trip)
            if later is None or not values.stay_kept((thing.index, trip, later)):
                continue
            fuller = _with_one(frame, later, held[later], thing.index, slack[later])
            if fuller is not None and fuller[0] <= limits[later]:
                values.take((thing.index, trip, later))
                held[later] = fuller[1]
                held[trip] = {at: units for at, units in held[trip].items() if at[0] != thing.index}
    return join(held)


def _later(frame: Frame, values: RowValues, cargo: int, trip: int) -> int | None:
    """The last trip over the same leg, where a unit on this one would end its day alone."""
    if not values.rides.get((cargo, trip)) or (cargo, trip) in frame.settled:
        return None
    trips, problem = frame.world.timeline.trips, frame.world.problem
    its, allowed = trips[trip], frame.allowed_trips[cargo]
    goes_on = any(
        values.rides.get((cargo, other)) and trips[other].day == its.day and other > trip
        for other in allowed
    )
    sleeps = {place for (day, _), place in frame.world.sleeps.items() if day == its.day}
    if goes_on or its.to_place in sleeps or its.to_place == problem.start_place:
        return None
    others = [
        other
        for other in allowed
        if other > trip
        and (trips[other].from_place, trips[other].to_place) == (its.from_place, its.to_place)
    ]
    return others[-1] if others else None


def _with_one(
    frame: Frame, trip: int, held: Held, cargo: int, slack: Slack
) -> tuple[int, Held] | None:
    """A trip with one more unit where that makes it least full, and how full it is [1/10,000]."""
    found = []
    for carrier in frame.may_carry[cargo, trip]:
        at = cargo, carrier.carrier_id
        more = held | {at: held.get(at, 0) + 1}
        found.append((load_trip(frame, trip, more, slack).peak(), carrier.carrier_id, more))
    return None if not found else (min(found)[0], min(found)[2])
