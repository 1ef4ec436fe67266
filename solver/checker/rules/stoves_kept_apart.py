"""Stoves kept apart: on each trip, stoves in any one pack or sled <= 1.

Documents: polar-weight.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.apart import apart_finding
from solver.checker.queries.holdings import in_hand, pieces
from solver.plan import Finding
from solver.problem import Purpose

RULE = "stoves_kept_apart"


def stoves_kept_apart(replay: Replay) -> Iterator[Finding]:
    """Packs and sleds with more than one stove."""
    stoves = pieces(replay.facts, Purpose.STOVE)
    for record in replay.records:
        for carrier in record.carriers:
            count = in_hand(stoves, carrier.counts)
            if count > 1:
                words = f"{count} stoves in it, at most 1 may be"
                yield apart_finding(RULE, record, carrier, count - 1, words)
