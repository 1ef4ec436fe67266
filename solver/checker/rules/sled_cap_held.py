"""Sled cap held: sled tare + units <= hauler's sled cap x leg factor, rounded down.

Of a sled with two haulers: <= that / their share, rounded down, for each of them.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.telling import carrier_where, kg, trip_where, trip_words
from solver.plan import Finding
from solver.quantities import share_down

RULE = "sled_cap_held"


def sled_cap_held(replay: Replay) -> Iterator[Finding]:
    """Sleds heavier than their haulers may haul."""
    for record in replay.records:
        factor = record.trip.sled_factor_percent
        for burden in record.burdens:
            for person, percent in burden.pulls:
                cap_g = share_down(amount=person.caps.sled_g, percent=factor) * 100 // percent
                over_g = burden.sled_g - cap_g
                if over_g > 0:
                    whose = "hauler's" if percent == 100 else f"{person.person_id}'s"
                    yield Finding(
                        RULE,
                        f"{burden.on_sled.name} on {trip_words(record.trip)}: "
                        f"{kg(burden.sled_g)}, {whose} cap {kg(cap_g)} on this leg, "
                        f"{kg(over_g)} over",
                        over_g,
                        "g",
                        (*trip_where(record.trip), *carrier_where(burden.on_sled)),
                    )
