"""Owner carries: a personal item in a pack or sled is in that of its owner.

Where the owner's kit may go to the rope team, anybody of that team may have it. What must stay on
the owner all the same is the business of vital_kit_on_owner.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.telling import carrier_where, trip_where, trip_words
from solver.plan import Finding

RULE = "owner_carries"


def owner_carries(replay: Replay) -> Iterator[Finding]:
    """Personal items that another person carries."""
    for record in replay.records:
        for carrier in record.carriers:
            for unit_id, count in carrier.counts.items():
                item = replay.facts.units[unit_id].item
                if item is None or item.owner_id is None:
                    continue
                if carrier.person_id in replay.facts.needs.carriers_of(item):
                    continue
                yield Finding(
                    RULE,
                    f"{carrier.name} on {trip_words(record.trip)}: {count} {unit_id} in it, "
                    f"which only {item.owner_id} carries",
                    count,
                    "units",
                    (*trip_where(record.trip), *carrier_where(carrier), ("unit", unit_id)),
                )
