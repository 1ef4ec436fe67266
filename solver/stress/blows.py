"""What can strike an expedition: a storm of some nights, or one thing or one person lost.

A storm holds everybody from the morning after the night of its day. A loss is found once the
trips of its day are over, before the night: the contents of a pack as it came in, of a cache as
it stands that evening, one stove where it stands. A broken sled leaves its load where it came to.
A person who is lost as a carrier still walks, with own water, lunch, warm
layers and what must stay on them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from enum import StrEnum

from solver.checker.ledger.replay import Replay
from solver.checker.ledger.times import moment_of
from solver.checker.queries.unattended import read_caches
from solver.problem import History, Purpose

Lost = tuple[tuple[str, str, int], ...]
"""Place, unit and how many of it, in the order of their names."""


class BlowKind(StrEnum):
    """What strikes."""

    STORM = "storm"
    SLED = "sled"
    PACK = "pack"
    CACHE = "cache"
    STOVE = "stove"
    PERSON = "person"


@dataclass(frozen=True, slots=True)
class Blow:
    """One thing that happens on a day: `thing` is whose or what, `places` where.

    `nights` is how long a storm lasts, 0 for a loss. `lost` are the units that are gone.
    """

    kind: BlowKind
    day: int
    places: tuple[str, ...]
    thing: str = ""
    nights: int = 0
    lost: Lost = field(default=(), compare=False)

    @property
    def state(self) -> tuple[object, ...]:
        """What is equal of two blows that leave the same state behind."""
        if self.kind in {BlowKind.PACK, BlowKind.CACHE, BlowKind.STOVE}:
            return self.day, self.lost
        return self.kind, self.day, self.thing, self.nights


def blows(
    replay: Replay, kinds: frozenset[BlowKind], storm_nights: tuple[int, ...]
) -> Iterator[Blow]:
    """Every blow of these kinds on every day but the last, by day and then by kind.

    `storm_nights` are the lengths of storms [nights].
    """
    problem = replay.facts.problem
    makers: dict[BlowKind, Callable[[int], Iterator[Blow]]] = {
        BlowKind.STORM: lambda day: _storms(replay, day, storm_nights),
        BlowKind.SLED: lambda day: _sleds(replay, day),
        BlowKind.PACK: lambda day: _packs(replay, day),
        BlowKind.CACHE: lambda day: _caches(replay, day),
        BlowKind.STOVE: lambda day: _stoves(replay, day),
        BlowKind.PERSON: lambda day: _people(replay, day),
    }
    for day in range(1, len(problem.calendar.days)):
        for kind, make in makers.items():
            if kind in kinds:
                yield from make(day)


def _slept_at(replay: Replay, day: int) -> dict[str, str]:
    night = replay.facts.night(day)
    return {p.person_id: night.place_of(p.person_id) for p in replay.facts.problem.roster}


def _storms(replay: Replay, day: int, lengths: tuple[int, ...]) -> Iterator[Blow]:
    places = tuple(dict.fromkeys(_slept_at(replay, day).values()))
    for nights in lengths:
        yield Blow(BlowKind.STORM, day, places, nights=nights)


def _sleds(replay: Replay, day: int) -> Iterator[Blow]:
    """Sleds that were hauled so far, each where its last trip ended."""
    where: dict[str, str] = {}
    for record in replay.records:
        if record.trip.day <= day:
            where.update(dict.fromkeys(record.trip.sled_ids, record.trip.to_place))
    for sled in replay.facts.problem.sleds:
        if sled.sled_id in where:
            yield Blow(BlowKind.SLED, day, (where[sled.sled_id],), sled.sled_id)


def _packs(replay: Replay, day: int) -> Iterator[Blow]:
    """Packs as they came in on the last trip of each person that day."""
    last: dict[str, Blow] = {}
    for record in replay.records:
        if record.trip.day == day:
            place = record.trip.to_place
            for burden in record.burdens:
                units = burden.pack.counts.items()
                lost = tuple((place, unit, count) for unit, count in sorted(units) if count > 0)
                person = burden.person.person_id
                last[person] = Blow(BlowKind.PACK, day, (place,), person, lost=lost)
    yield from (blow for blow in last.values() if blow.lost)


def _caches(replay: Replay, day: int) -> Iterator[Blow]:
    for cache in read_caches(replay):
        if cache.day == day:
            units = sorted(cache.units.items())
            lost = tuple((cache.place_id, unit, count) for unit, count in units)
            yield Blow(BlowKind.CACHE, day, (cache.place_id,), cache.place_id, lost=lost)


def _stoves(replay: Replay, day: int) -> Iterator[Blow]:
    evening = moment_of(History(day), replay.facts.timeline)
    for item in replay.facts.problem.gear:
        if item.purpose is Purpose.STOVE and item.unit_id in replay.courses:
            for place, count in sorted(replay.courses[item.unit_id].at(evening).items()):
                if count > 0:
                    lost = ((place, item.unit_id, 1),)
                    yield Blow(BlowKind.STOVE, day, (place,), item.unit_id, lost=lost)


def _people(replay: Replay, day: int) -> Iterator[Blow]:
    for person_id, place in _slept_at(replay, day).items():
        yield Blow(BlowKind.PERSON, day, (place,), person_id)
