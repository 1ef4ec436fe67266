"""Pins kept: what the request pins to a pack or sled on a trip is in it.

For each pin: units in that carrier on that trip >= units pinned.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.loads import TripRecord
from solver.checker.ledger.replay import Replay
from solver.checker.queries.telling import trip_where, trip_words
from solver.plan import Finding
from solver.problem import Pin

RULE = "pins_kept"


def pins_kept(replay: Replay) -> Iterator[Finding]:
    """Pins whose units ride elsewhere, or not at all."""
    for number, pin in enumerate(replay.facts.problem.pins, start=1):
        for record in replay.records:
            trip = record.trip
            if (trip.day, trip.step) != (pin.day, pin.step) or pin.person_id not in trip.person_ids:
                continue
            missing = pin.count - _units_there(record, pin)
            if missing > 0:
                where = "on the sled" if pin.on_sled else "in the pack"
                yield Finding(
                    RULE,
                    f"{where} of {pin.person_id} on {trip_words(trip)}: {pin.count} {pin.unit_id} "
                    f"pinned, {missing} not there",
                    missing,
                    "units",
                    (
                        *trip_where(trip),
                        ("person", pin.person_id),
                        ("unit", pin.unit_id),
                        ("pin", number),
                    ),
                )


def _units_there(record: TripRecord, pin: Pin) -> int:
    return sum(
        carrier.counts[pin.unit_id]
        for carrier in record.carriers
        if carrier.person_id == pin.person_id and (carrier.sled_id is not None) == pin.on_sled
    )
