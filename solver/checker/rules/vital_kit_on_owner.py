"""Vital kit on owner: what keeps a person alive is in nobody else's pack and on nobody's sled.

Units with anybody but the owner = 0: rucksack, headlamp, gloves and mitts, eye protection, flask
and medication on every trip; warm layers on trips that are cold for them, or that bring the owner
to where the layer is needed that night.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.personal import cold_asks_for, keeps_alive
from solver.checker.queries.telling import carrier_where, trip_where, trip_words
from solver.plan import Finding

RULE = "vital_kit_on_owner"


def vital_kit_on_owner(replay: Replay) -> Iterator[Finding]:
    """Things that a life may hang on and that another person carries."""
    for record in replay.records:
        for carrier in record.carriers:
            for unit_id, count in carrier.counts.items():
                item = replay.facts.units[unit_id].item
                if item is None or item.owner_id in (None, carrier.person_id):
                    continue
                if keeps_alive(item) or cold_asks_for(replay.facts, item, record.trip):
                    yield Finding(
                        RULE,
                        f"{carrier.name} on {trip_words(record.trip)}: {count} {unit_id} in it, "
                        f"which {item.owner_id} must have at hand",
                        count,
                        "units",
                        (*trip_where(record.trip), *carrier_where(carrier), ("unit", unit_id)),
                        (f"{unit_id} in the pack of {item.owner_id}",),
                    )
