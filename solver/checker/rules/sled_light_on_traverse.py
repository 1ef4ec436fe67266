"""Sled light on traverse: across a slope a sled is lighter than it may be straight up.

For each sled hauled on a leg with a traverse: gross <= `traverse_sled_percent` of the hauler's
sled cap times the leg's factor on the way up.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.telling import carrier_where, kg, trip_where, trip_words
from solver.plan import Finding
from solver.quantities import share_down

RULE = "sled_light_on_traverse"


def sled_light_on_traverse(replay: Replay) -> Iterator[Finding]:
    """Sleds that are too heavy to be held on a side-slope."""
    percent = replay.facts.problem.rules.whole("traverse_sled_percent")
    for record in replay.records:
        leg = record.trip.leg
        if not leg.traverse:
            continue
        for burden in record.burdens:
            if burden.sled is None:
                continue
            straight_g = share_down(
                amount=burden.person.caps.sled_g, percent=leg.sled_factor_outbound_percent
            )
            limit_g = share_down(amount=straight_g, percent=percent)
            over_g = burden.sled_g - limit_g
            if over_g > 0:
                yield Finding(
                    RULE,
                    f"sled {burden.sled.sled_id} of {burden.person.person_id} on "
                    f"{trip_words(record.trip)}: {kg(burden.sled_g)} on a traverse, at most "
                    f"{kg(limit_g)}, {percent} % of what it may be straight up, is good here",
                    over_g,
                    "g",
                    (*trip_where(record.trip), *carrier_where(burden.on_sled)),
                )
