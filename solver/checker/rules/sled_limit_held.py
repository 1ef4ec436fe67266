"""Sled limit held: sled tare + units <= the sled's own limit x leg factor, rounded down."""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.telling import carrier_where, kg, trip_where, trip_words
from solver.plan import Finding
from solver.quantities import share_down

RULE = "sled_limit_held"


def sled_limit_held(replay: Replay) -> Iterator[Finding]:
    """Sleds heavier than they may be."""
    for record in replay.records:
        factor = record.trip.sled_factor_percent
        for burden in record.burdens:
            if burden.sled is None:
                continue
            limit_g = share_down(amount=burden.sled.mass_limit_g, percent=factor)
            over_g = burden.sled_g - limit_g
            if over_g > 0:
                yield Finding(
                    RULE,
                    f"{burden.on_sled.name} on {trip_words(record.trip)}: {kg(burden.sled_g)}, "
                    f"the sled takes {kg(limit_g)} on this leg, {kg(over_g)} over",
                    over_g,
                    "g",
                    (*trip_where(record.trip), *carrier_where(burden.on_sled)),
                )
