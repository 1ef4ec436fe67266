"""Sled volume held: volume of the units on a sled <= the sled's volume."""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.telling import carrier_where, litres, trip_where, trip_words
from solver.plan import Finding

RULE = "sled_volume_held"


def sled_volume_held(replay: Replay) -> Iterator[Finding]:
    """Sleds with more on them than fits."""
    for record in replay.records:
        for burden in record.burdens:
            if burden.sled is None:
                continue
            over_ml = burden.on_sled.volume_ml - burden.sled.volume_ml
            if over_ml > 0:
                yield Finding(
                    RULE,
                    f"{burden.on_sled.name} on {trip_words(record.trip)}: "
                    f"{litres(burden.on_sled.volume_ml)}, room for "
                    f"{litres(burden.sled.volume_ml)}, {litres(over_ml)} over",
                    over_ml,
                    "mL",
                    (*trip_where(record.trip), *carrier_where(burden.on_sled)),
                )
