"""Keeper has it: what the request gives to a keeper rides with that person.

On each trip in which the keeper takes part: units with others = 0.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.telling import trip_where, trip_words
from solver.plan import Finding

RULE = "keeper_has_it"


def keeper_has_it(replay: Replay) -> Iterator[Finding]:
    """Trips on which others have something of a keeper who is there."""
    kept = [(i.unit_id, i.keeper_id) for i in replay.facts.problem.gear if i.keeper_id is not None]
    for record in replay.records:
        for unit_id, keeper_id in kept:
            if keeper_id not in record.trip.person_ids:
                continue
            others: Counter[str] = Counter()
            for carrier in record.carriers:
                if carrier.person_id != keeper_id and carrier.counts[unit_id]:
                    others[carrier.person_id] += carrier.counts[unit_id]
            if others:
                yield Finding(
                    RULE,
                    f"{unit_id} on {trip_words(record.trip)}: its keeper is {keeper_id}, but "
                    + ", ".join(f"{who} has {units}" for who, units in sorted(others.items())),
                    others.total(),
                    "units",
                    (*trip_where(record.trip), ("person", keeper_id), ("unit", unit_id)),
                )
