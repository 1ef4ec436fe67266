"""Units ride with people: each trip has one load for each member of its party, and no other.

Loads of somebody outside the party, and of trips that the calendar has not, count their
units; trips and members without a load, and second loads of one person, count loads.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from solver.checker.ledger.loads import TripRecord
from solver.checker.ledger.replay import Replay
from solver.checker.queries.telling import trip_where, trip_words
from solver.plan import Finding, Load

RULE = "units_ride_with_people"


def units_ride_with_people(replay: Replay) -> Iterator[Finding]:
    """Loads on nobody of the party, loads left out, and loads of trips that nobody makes."""
    for record in replay.records:
        if record.planned is None:
            yield Finding(
                RULE,
                f"{trip_words(record.trip)}: the plan has no loads for this trip",
                max(len(record.burdens), 1),
                "loads",
                trip_where(record.trip),
            )
        else:
            yield from _of_trip(record, Counter(load.person_id for load in record.planned.loads))
    for loads in replay.loads_of_no_trip:
        yield Finding(
            RULE,
            f"day {loads.day}, {loads.from_place} to {loads.to_place}: nobody makes such a trip "
            f"as step {loads.step} of that day",
            max(sum(_units(load) for load in loads.loads), 1),
            "units",
            (
                ("day", loads.day),
                ("step", loads.step),
                ("from_place", loads.from_place),
                ("to_place", loads.to_place),
            ),
        )


def _of_trip(record: TripRecord, loads: Counter[str]) -> Iterator[Finding]:
    at, where = trip_words(record.trip), trip_where(record.trip)
    for person_id in record.trip.person_ids:
        extra = loads[person_id] - 1
        if extra:
            words = "no load is given" if extra < 0 else f"{extra + 1} loads are given"
            message = f"{words} for {person_id} on {at}, one is needed"
            yield Finding(RULE, message, abs(extra), "loads", (*where, ("person", person_id)))
    for load in record.planned.loads if record.planned is not None else ():
        if load.person_id not in record.trip.person_ids:
            amount = _units(load)
            words = f"load of {load.person_id} on {at}: not one of the party, {amount} units loaded"
            yield Finding(
                RULE, words, max(amount, 1), "units", (*where, ("person", load.person_id))
            )


def _units(load: Load) -> int:
    return sum(max(stowed.count, 0) for stowed in (*load.pack, *load.sled))
