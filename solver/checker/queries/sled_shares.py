"""The share of the sled in what a hauler moves, held to a band."""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.loads import TripRecord
from solver.checker.queries.telling import carrier_where, trip_where, trip_words
from solver.plan import Finding


def share_findings(
    rule_id: str, record: TripRecord, least_percent: int, most_percent: int
) -> Iterator[Finding]:
    """Haulers whose sled has a share of pack and sled outside a band, bounds allowed.

    The amount is the percentage points outside, rounded up.
    """
    for burden in record.burdens:
        total_g = burden.pack_g + burden.sled_g
        if burden.sled is None or total_g == 0:
            continue
        short = least_percent * total_g - 100 * burden.sled_g
        over = 100 * burden.sled_g - most_percent * total_g
        outside = max(short, over)
        if outside > 0:
            yield Finding(
                rule_id,
                f"sled {burden.sled.sled_id} of {burden.person.person_id} on "
                f"{trip_words(record.trip)}: {100 * burden.sled_g / total_g:.1f} % of pack and "
                f"sled, {least_percent} to {most_percent} % is good here",
                -(-outside // total_g),
                "%",
                (*trip_where(record.trip), *carrier_where(burden.on_sled)),
            )
