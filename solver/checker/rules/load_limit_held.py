"""Load limit held: pack + sled, both gross, <= the most that a spared person carries.

Of a sled with two haulers each has their share of the sled's limit on the leg, rounded up.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.fractions import limited_g
from solver.checker.queries.telling import kg, trip_where, trip_words
from solver.plan import Finding

RULE = "load_limit_held"


def load_limit_held(replay: Replay) -> Iterator[Finding]:
    """Loads of weak or hurt people above their limits."""
    for record in replay.records:
        for burden in record.burdens:
            limit_g = burden.person.load_limit_g
            load_g = limited_g(burden, record.trip)
            if limit_g is not None and load_g > limit_g:
                person_id = burden.person.person_id
                yield Finding(
                    RULE,
                    f"pack and sled of {person_id} on {trip_words(record.trip)}: {kg(load_g)}, "
                    f"limit {kg(limit_g)}, {kg(load_g - limit_g)} over",
                    load_g - limit_g,
                    "g",
                    (*trip_where(record.trip), ("person", person_id)),
                )
