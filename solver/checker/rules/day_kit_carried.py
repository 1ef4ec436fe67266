"""Day kit carried: personal items of every trip are in their owner's pack.

For each such item and trip of its owner in its range: units in the owner's pack >= count. Sleeping
kit whose owner's kit may go to the rope team: units in the packs of the team together >= count.
"""

from __future__ import annotations

from collections.abc import Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.queries.telling import trip_where, trip_words
from solver.plan import Finding
from solver.problem import Purpose

RULE = "day_kit_carried"

FOR_SLEEPING = (Purpose.SLEEPING_BAG, Purpose.SLEEPING_PAD, Purpose.DRY_LAYER)


def day_kit_carried(replay: Replay) -> Iterator[Finding]:
    """Day kit that is not in its owner's pack."""
    personal = [item for item in replay.facts.problem.gear if item.owner_id is not None]
    for record in replay.records:
        packs = {b.person.person_id: b.pack.counts for b in record.burdens}
        for item in personal:
            if item.owner_id not in packs:
                continue
            able = {item.owner_id}
            if item.purpose in FOR_SLEEPING:
                able = set(replay.facts.needs.carriers_of(item))
            missing = item.count - sum(c[item.unit_id] for p, c in packs.items() if p in able)
            if missing > 0 and replay.facts.needs.must_ride(item, record.trip):
                yield Finding(
                    RULE,
                    f"pack of {item.owner_id} on {trip_words(record.trip)}: {item.count} "
                    f"{item.unit_id} needed in it, {missing} too few",
                    missing,
                    "units",
                    (
                        *trip_where(record.trip),
                        ("person", item.owner_id or ""),
                        ("unit", item.unit_id),
                    ),
                )
