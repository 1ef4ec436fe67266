"""What is other than in a former plan: units with people who did not have them on that trip."""

from __future__ import annotations

from collections import Counter

from solver.checker.ledger.replay import Replay
from solver.plan import Plan, TripLoads
from solver.problem import Trip


def units_changed(replay: Replay, former: Plan) -> int:
    """Over all trips, units and people: how many more somebody has than in the former plan.

    The n-th way from one place to another is compared with the n-th in the former plan.
    """
    left = list(former.trips)
    more = 0
    for record in replay.records:
        before = _take(left, record.trip)
        had: Counter[tuple[str, str]] = Counter()
        for load in before.loads if before is not None else ():
            for stowed in (*load.pack, *load.sled):
                had[load.person_id, stowed.unit_id] += stowed.count
        has: Counter[tuple[str, str]] = Counter()
        for carrier in record.carriers:
            for unit_id, count in carrier.counts.items():
                has[carrier.person_id, unit_id] += count
        more += sum(max(0, count - had[key]) for key, count in has.items())
    return more


def _take(left: list[TripLoads], trip: Trip) -> TripLoads | None:
    """The former trip that a trip is compared with, taken off those that are left.

    Where several parties went the same way in one step, the one with most of the same people.
    """
    same_way = [t for t in left if (t.from_place, t.to_place) == (trip.from_place, trip.to_place)]
    if not same_way:
        return None
    moment = (same_way[0].day, same_way[0].step)
    at_once = [told for told in same_way if (told.day, told.step) == moment]
    shared = [sum(load.person_id in trip.person_ids for load in told.loads) for told in at_once]
    taken = at_once[shared.index(max(shared))]
    left.remove(taken)
    return taken
