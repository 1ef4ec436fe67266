"""Kinds kept apart: of k >= 2 units of a kind on a trip, at most k - 1 in one pack or sled.

Documents: polar-weight.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from solver.checker.ledger.loads import Carrier
from solver.checker.ledger.replay import Replay
from solver.checker.queries.telling import carrier_where, trip_where, trip_words
from solver.plan import Finding

RULE = "kinds_kept_apart"


def kinds_kept_apart(replay: Replay) -> Iterator[Finding]:
    """Packs and sleds that have all of a kind that must not be lost together."""
    for record in replay.records:
        carriers = [(carrier, _kinds(replay, carrier)) for carrier in record.carriers]
        riding: Counter[str] = Counter()
        for _, kinds in carriers:
            riding.update(kinds)
        for carrier, kinds in carriers:
            for kind, count in kinds.items():
                if riding[kind] >= 2 and count > riding[kind] - 1:
                    yield Finding(
                        RULE,
                        f"{carrier.name} on {trip_words(record.trip)}: all {count} of kind "
                        f"{kind} in it, at most {count - 1} may be",
                        count - (riding[kind] - 1),
                        "units",
                        (*trip_where(record.trip), *carrier_where(carrier), ("kind", kind)),
                    )


def _kinds(replay: Replay, carrier: Carrier) -> Counter[str]:
    kinds: Counter[str] = Counter()
    for unit_id, count in carrier.counts.items():
        item = replay.facts.units[unit_id].item
        if item is not None and item.apart_kind is not None:
            kinds[item.apart_kind] += count
    return kinds
