"""Units conserved: what a load takes stands where the trip leaves, and figures are true.

For each unit and trip: units loaded <= units standing at the place that the trip leaves. What
no unit can be (an unknown name, a count below one, something worn) is found here too, and so
are claims of mass, volume and stock that differ from the replay; those have g, mL or units.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.claims import load_claims, stock_claims
from solver.checker.queries.telling import Where, trip_where, trip_words
from solver.plan import Finding, Stowed

RULE = "units_conserved"


def units_conserved(replay: Replay) -> Iterator[Finding]:
    """What is loaded where it does not stand, what cannot be, and claims that are not true."""
    yield from _unheard_of(replay)
    yield from _not_there(replay)
    yield from load_claims(replay)
    yield from stock_claims(replay)


def _not_there(replay: Replay) -> Iterator[Finding]:
    trips = {trip.index: trip for trip in replay.facts.timeline.trips}
    for unit_id, course in replay.courses.items():
        for shortage in course.shortages:
            if shortage.event.leg is None:
                continue
            trip = trips[shortage.event.leg]
            stands = course.before(shortage.event.time)
            left = [
                place
                for place, count in stands.items()
                if count >= shortage.missing and place != trip.from_place
            ]
            yield Finding(
                RULE,
                f"{unit_id} on {trip_words(trip)}: {shortage.wanted} loaded, "
                f"{shortage.there} there to load, {shortage.missing} too many"
                + (f": left behind at {' or '.join(left)}" if left else ""),
                shortage.missing,
                "units",
                (*trip_where(trip), ("unit", unit_id)),
            )


def _unheard_of(replay: Replay) -> Iterator[Finding]:
    for record in replay.records:
        for load in record.planned.loads if record.planned is not None else ():
            at = f"load of {load.person_id} on {trip_words(record.trip)}"
            where = (*trip_where(record.trip), ("person", load.person_id))
            for stowed in (*load.pack, *load.sled):
                yield from _cannot_be(replay, stowed, at, where)
    for entry in replay.plan.stock:
        at = f"stock of {entry.place_id} on day {entry.day}"
        for stowed in entry.units:
            where = (("day", entry.day), ("place", entry.place_id))
            yield from _cannot_be(replay, stowed, at, where)


def _cannot_be(replay: Replay, stowed: Stowed, at: str, where: Where) -> Iterator[Finding]:
    unit_id = stowed.unit_id
    if unit_id in replay.facts.worn:
        words = f"{unit_id} in the {at}: it is worn and never part of a load or store"
    elif unit_id not in replay.facts.units:
        words = f"{unit_id} in the {at}: nothing of that name is on this trip"
    elif stowed.count < 0:
        words = f"{unit_id} in the {at}: {stowed.count} of them cannot be"
    else:
        return
    amount = max(abs(stowed.count), 1)
    yield Finding(RULE, words, amount, "units", (*where, ("unit", unit_id)))
