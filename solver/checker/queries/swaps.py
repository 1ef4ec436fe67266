"""Swaps: units that one person sets down and another takes up."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from solver.checker.ledger.loads import TripRecord
from solver.checker.ledger.once import once
from solver.checker.ledger.replay import Replay
from solver.problem import NeedKind
from solver.rulebook.goals import SWAP_AT_STOP, SWAP_OF_SINGLE, SWAP_OF_STOCK


@dataclass(frozen=True, slots=True)
class Swap:
    """Units of one id that change hands between two trips on which such units ride.

    `since_day` is the day of the earlier trip. `taken` says who has how many more than before;
    they come to `units`. `weight` is what each unit counts in the goal.
    """

    record: TripRecord
    since_day: int
    unit_id: str
    units: int
    weight: int
    taken: tuple[tuple[str, int], ...]


@once
def swaps(replay: Replay) -> tuple[Swap, ...]:
    """Every swap of a plan, trip by trip; personal items of every trip are left out.

    Between two trips on which units of an id ride one after the other, as many change hands as
    people have more of them, but no more than people have fewer.
    """
    return tuple(_swaps(replay))


def _swaps(replay: Replay) -> Iterator[Swap]:
    before: dict[str, tuple[int, dict[str, int]]] = {}
    for record in replay.to_come:
        for unit_id, now in _by_unit(record).items():
            if unit_id in before:
                since_day, then = before[unit_id]
                if now != then and not _is_day_kit(replay, unit_id):
                    more, fewer = _beyond(now, then), _beyond(then, now)
                    units = min(sum(more.values()), sum(fewer.values()))
                    if units:
                        weight = _weight(replay, unit_id, at_stop=since_day == record.trip.day)
                        yield Swap(record, since_day, unit_id, units, weight, _taken(more, units))
            before[unit_id] = record.trip.day, now


def _by_unit(record: TripRecord) -> dict[str, dict[str, int]]:
    """By unit id, how many each person has on a trip, in pack and on sled together."""
    carried: dict[str, dict[str, int]] = {}
    for carrier in record.carriers:
        person_id = carrier.person_id
        for unit_id, count in carrier.counts.items():
            has = carried.setdefault(unit_id, {})
            has[person_id] = has.get(person_id, 0) + count
    return carried


def _beyond(one: dict[str, int], other: dict[str, int]) -> dict[str, int]:
    """How much more people have in one count than in another, by person."""
    return {who: more for who, n in one.items() if (more := n - other.get(who, 0)) > 0}


def _taken(more: dict[str, int], units: int) -> tuple[tuple[str, int], ...]:
    """Who takes over the units that change hands, whoever has most more first."""
    taken = []
    for person_id, count in sorted(more.items(), key=lambda one: (-one[1], one[0])):
        if units > 0:
            taken.append((person_id, min(count, units)))
            units -= count
    return tuple(taken)


def _weight(replay: Replay, unit_id: str, *, at_stop: bool) -> int:
    if at_stop:
        return SWAP_AT_STOP
    item = replay.facts.units[unit_id].item
    return SWAP_OF_SINGLE if item is not None and item.count == 1 else SWAP_OF_STOCK


def _is_day_kit(replay: Replay, unit_id: str) -> bool:
    item = replay.facts.units[unit_id].item
    return item is not None and item.owner_id is not None and item.need.kind is NeedKind.EVERY_TRIP
