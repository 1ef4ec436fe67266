"""Pack volume held: volume of the units <= pack volume x (1 + outside allowance), rounded down.

Water and lunch take no volume.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.telling import carrier_where, litres, trip_where, trip_words
from solver.plan import Finding
from solver.quantities import share_down

RULE = "pack_volume_held"


def pack_volume_held(replay: Replay) -> Iterator[Finding]:
    """Packs with more in them than fits in and on them."""
    percent = 100 + replay.facts.problem.rules.pack_volume_allowance_percent
    for record in replay.records:
        for burden in record.burdens:
            most_ml = share_down(amount=burden.person.pack_volume_ml, percent=percent)
            over_ml = burden.pack.volume_ml - most_ml
            if over_ml > 0:
                yield Finding(
                    RULE,
                    f"{burden.pack.name} on {trip_words(record.trip)}: "
                    f"{litres(burden.pack.volume_ml)}, room for {litres(most_ml)} with what may "
                    f"be outside, {litres(over_ml)} over",
                    over_ml,
                    "mL",
                    (*trip_where(record.trip), *carrier_where(burden.pack)),
                )
