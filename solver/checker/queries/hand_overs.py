"""Hand-overs: units that another person carries than on the trip before."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from solver.checker.ledger.loads import TripRecord
from solver.checker.ledger.replay import Replay
from solver.problem import NeedKind


@dataclass(frozen=True, slots=True)
class HandOver:
    """Units of one id that a person has on a trip and had not when such units last rode.

    `since_day` is the day on which they last rode.
    """

    record: TripRecord
    since_day: int
    unit_id: str
    person_id: str
    units: int


def received(replay: Replay) -> Iterator[HandOver]:
    """Every hand-over of a plan, trip by trip; personal items of every trip are left out."""
    before: dict[str, tuple[int, dict[str, int]]] = {}
    for record in replay.records:
        carried: dict[str, dict[str, int]] = {}
        for carrier in record.carriers:
            for unit_id, count in carrier.counts.items():
                by_person = carried.setdefault(unit_id, {})
                by_person[carrier.person_id] = by_person.get(carrier.person_id, 0) + count
        for unit_id, by_person in carried.items():
            if unit_id in before and not _is_day_kit(replay, unit_id):
                since_day, then = before[unit_id]
                for person_id, count in by_person.items():
                    more = count - then.get(person_id, 0)
                    if more > 0:
                        yield HandOver(record, since_day, unit_id, person_id, more)
            before[unit_id] = record.trip.day, by_person


def _is_day_kit(replay: Replay, unit_id: str) -> bool:
    item = replay.facts.units[unit_id].item
    return item is not None and item.owner_id is not None and item.need.kind is NeedKind.EVERY_TRIP
