"""Total cap held: pack + sled, both gross, <= the hauler's total cap where a sled is hauled."""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.replay import Replay
from solver.checker.telling import kg, trip_where, trip_words
from solver.plan import Finding

RULE = "total_cap_held"


def total_cap_held(replay: Replay) -> Iterator[Finding]:
    """Haulers with more in pack and sled together than they may have."""
    for record in replay.records:
        for burden in record.burdens:
            total_g = burden.person.caps.total_g
            if burden.sled is None or total_g is None:
                continue
            over_g = burden.pack_g + burden.sled_g - total_g
            if over_g > 0:
                person_id = burden.person.person_id
                yield Finding(
                    RULE,
                    f"pack and sled of {person_id} on {trip_words(record.trip)}: "
                    f"{kg(burden.pack_g + burden.sled_g)}, cap {kg(total_g)}, {kg(over_g)} over",
                    over_g,
                    "g",
                    (*trip_where(record.trip), ("person", person_id)),
                )
