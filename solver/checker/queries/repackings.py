"""Repackings: units that a person moves from the pack to the sled, or back."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from solver.checker.ledger.loads import Burden, TripRecord
from solver.checker.ledger.replay import Replay
from solver.rulebook.goals import REPACKED_AT_STOP, REPACKED_BETWEEN_DAYS


@dataclass(frozen=True, slots=True)
class Repacking:
    """Units of one id that a person has on two trips, on the later one in the other carrier.

    `since_day` is the day of the earlier trip; `weight` is what each unit counts in the goal.
    """

    record: TripRecord
    since_day: int
    unit_id: str
    person_id: str
    units: int
    weight: int


def repackings(replay: Replay) -> tuple[Repacking, ...]:
    """Every repacking of a plan, trip by trip, by people who haul a sled on both trips."""
    return tuple(_repackings(replay))


def _repackings(replay: Replay) -> Iterator[Repacking]:
    last: dict[str, TripRecord] = {}
    for record in replay.to_come:
        now = {burden.person.person_id: burden for burden in record.burdens}
        for unit_id in record.counts:
            earlier = last.get(unit_id)
            for before in earlier.burdens if earlier is not None else ():
                after = now.get(before.person.person_id)
                if earlier is None or after is None or None in (before.sled, after.sled):
                    continue
                units = _moved(before, after, unit_id)
                if units:
                    since, who = earlier.trip.day, before.person.person_id
                    at_stop = since == record.trip.day
                    weight = REPACKED_AT_STOP if at_stop else REPACKED_BETWEEN_DAYS
                    yield Repacking(record, since, unit_id, who, units, weight)
            last[unit_id] = record


def _moved(before: Burden, after: Burden, unit_id: str) -> int:
    """How many units go from one carrier into the other, of those that the person has on both."""
    packs = before.pack.counts[unit_id], after.pack.counts[unit_id]
    sleds = before.on_sled.counts[unit_id], after.on_sled.counts[unit_id]
    stay = min(packs[0] + sleds[0], packs[1] + sleds[1])
    return stay - min(packs) - min(sleds)
