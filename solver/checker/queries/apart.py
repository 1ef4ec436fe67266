"""Units of one purpose on a trip that must not all be in one pack or sled."""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.loads import Carrier, TripRecord
from solver.checker.ledger.replay import Replay
from solver.checker.queries.holdings import in_hand, pieces
from solver.checker.queries.telling import carrier_where, trip_where, trip_words
from solver.plan import Finding
from solver.problem import Purpose


def all_in_one(replay: Replay, rule_id: str, purpose: Purpose, name: str) -> Iterator[Finding]:
    """Packs and sleds that have all of two or more units of a purpose; `name` is in the plural."""
    worth = pieces(replay.facts, purpose)
    if not worth:
        return
    for record in replay.records:
        riding = in_hand(worth, record.counts)
        if riding < 2:
            continue
        for carrier in record.carriers:
            count = in_hand(worth, carrier.counts)
            if count > riding - 1:
                words = f"all {count} {name} of the trip in it, at most {riding - 1} may be"
                yield apart_finding(rule_id, record, carrier, count - (riding - 1), words)


def apart_finding(
    rule_id: str, record: TripRecord, carrier: Carrier, over: int, words: str
) -> Finding:
    """A finding on a pack or sled with units too many."""
    return Finding(
        rule_id,
        f"{carrier.name} on {trip_words(record.trip)}: {words}",
        over,
        "units",
        (*trip_where(record.trip), *carrier_where(carrier)),
    )
