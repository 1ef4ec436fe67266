"""Party kit carried: shared items of every trip ride on each trip that needs them.

For each shared item and trip in its range: units on the packs and sleds of the party >= count.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.telling import trip_where, trip_words
from solver.plan import Finding

RULE = "party_kit_carried"


def party_kit_carried(replay: Replay) -> Iterator[Finding]:
    """Party kit that a party leaves behind."""
    shared = [item for item in replay.facts.problem.gear if item.owner_id is None]
    for record in replay.records:
        counts = record.counts
        for item in shared:
            missing = item.count - counts[item.unit_id]
            if missing > 0 and replay.facts.needs.must_ride(item, record.trip):
                yield Finding(
                    RULE,
                    f"{item.unit_id} on {trip_words(record.trip)}: the party needs {item.count}, "
                    f"{counts[item.unit_id]} ride, {missing} too few",
                    missing,
                    "units",
                    (*trip_where(record.trip), ("unit", item.unit_id)),
                )
