"""Total cap held: pack + sled, both gross, <= the hauler's total cap where a sled is hauled.

Of a sled with two haulers each has their share of the sled's limit on the leg, rounded up.

Documents: peak-dispatches, sled-log.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.telling import kg, trip_where, trip_words
from solver.plan import Finding
from solver.quantities import share_down

RULE = "total_cap_held"


def total_cap_held(replay: Replay) -> Iterator[Finding]:
    """Haulers with more in pack and sled together than they may have."""
    for record in replay.records:
        packs_g = {burden.person.person_id: burden.pack_g for burden in record.burdens}
        for burden in record.burdens:
            for person, percent in burden.pulls:
                if person.caps.total_g is None or burden.sled is None:
                    continue
                pulled_g = burden.sled_g
                if percent != 100:
                    limit_g = share_down(
                        amount=burden.sled.mass_limit_g, percent=record.trip.sled_factor_percent
                    )
                    pulled_g = -(-limit_g * percent // 100)
                both_g = packs_g.get(person.person_id, 0) + pulled_g
                over_g = both_g - person.caps.total_g
                if over_g > 0:
                    yield Finding(
                        RULE,
                        f"pack and sled of {person.person_id} on {trip_words(record.trip)}: "
                        f"{kg(both_g)}, cap {kg(person.caps.total_g)}, {kg(over_g)} over",
                        over_g,
                        "g",
                        (*trip_where(record.trip), ("person", person.person_id)),
                    )
