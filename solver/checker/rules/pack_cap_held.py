"""Pack cap held: units + water + lunch <= the carrier's cap for the leg's mode and direction."""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.telling import carrier_where, kg, trip_where, trip_words
from solver.plan import Finding

RULE = "pack_cap_held"


def pack_cap_held(replay: Replay) -> Iterator[Finding]:
    """Packs heavier than their carriers may have them."""
    for record in replay.records:
        trip = record.trip
        for burden in record.burdens:
            cap_g = burden.person.caps.pack_on(trip.leg.mode, trip.direction)
            over_g = burden.pack_g - cap_g
            if over_g > 0:
                yield Finding(
                    RULE,
                    f"{burden.pack.name} on {trip_words(trip)}: {kg(burden.pack_g)}, "
                    f"cap {kg(cap_g)}, {kg(over_g)} over",
                    over_g,
                    "g",
                    (*trip_where(trip), *carrier_where(burden.pack)),
                )
