"""Guides carry rescue kit: rope, rescue kit and small medical kit ride at the rope's ends.

Shared items of every trip for roping up, rescue and first aid, on each trip that they must ride:
units with anybody who is neither a guide nor at an end of a rope = 0.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from solver.checker.ledger.loads import Carrier, TripRecord
from solver.checker.ledger.replay import Replay
from solver.checker.queries.ropes import rope_teams
from solver.checker.queries.telling import trip_where, trip_words
from solver.plan import Finding
from solver.problem import NeedKind, Purpose

RULE = "guides_carry_rescue_kit"

KIT = frozenset({Purpose.ROPE, Purpose.RESCUE_KIT, Purpose.MEDICAL_KIT})


def guides_carry_rescue_kit(replay: Replay) -> Iterator[Finding]:
    """People between the ends of a rope who carry what a rescue needs."""
    for record in replay.records:
        ends = {person for team in rope_teams(record) for person in team.ends}
        guides = {b.person.person_id for b in record.burdens if b.person.is_guide}
        carried: dict[str, Counter[str]] = {}
        for carrier in record.carriers:
            if carrier.person_id not in ends | guides:
                carried.setdefault(carrier.person_id, Counter()).update(
                    _kit_in(replay, record, carrier)
                )
        for person_id, kit in carried.items():
            if kit:
                yield Finding(
                    RULE,
                    f"{person_id} on {trip_words(record.trip)} carries {', '.join(sorted(kit))}, "
                    "which guides or those at the ends of the rope should",
                    kit.total(),
                    "units",
                    (*trip_where(record.trip), ("person", person_id)),
                )


def _kit_in(replay: Replay, record: TripRecord, carrier: Carrier) -> Counter[str]:
    kit: Counter[str] = Counter()
    for unit_id, count in carrier.counts.items():
        item = replay.facts.units[unit_id].item
        if (
            item is not None
            and item.purpose in KIT
            and item.owner_id is None
            and item.need.kind is NeedKind.EVERY_TRIP
            and replay.facts.needs.must_ride(item, record.trip)
        ):
            kit[unit_id] += count
    return kit
