"""Where the things that stand at a place on a night came from: who brought how many on which day.

Alike things cannot be told apart, so two customs are taken for all. Who takes some away takes the
ones that they brought themselves first, and then what came last. What is eaten, burnt or opened
came first.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import groupby
from typing import Any

from service.reports.paper.things import carried, counts_of

Document = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Lot:
    """So many of one thing that one person brought on one day."""

    day: int
    person_id: str
    count: int


Lots = tuple[Lot, ...]
_Held = dict[tuple[str, str], list[Lot]]
"""By place and unit id, what was brought there and is there yet, the oldest first."""


class Origins:
    """All things of a plan on all nights, with who brought them."""

    def __init__(self, plan: Document) -> None:
        self._there: dict[tuple[int, str, str], Lots] = {}
        self._gone: dict[tuple[int, str, str], Lots] = {}
        nights: dict[int, list[Document]] = {}
        for night in plan["stock"]:
            nights.setdefault(night["day"], []).append(night)
        held: _Held = {}
        for day in sorted({trip["day"] for trip in plan["trips"]} | nights.keys()):
            for trip in plan["trips"]:
                if trip["day"] == day:
                    _move(held, trip)
            if day in nights:
                self._count(held, day, nights[day])

    def there(self, day: int, place: str, unit_id: str) -> Lots:
        """Who brought what stands at a place after a night; what nobody brought is left out."""
        return self._there.get((day, place, unit_id), ())

    def used(self, day: int, place: str, unit_id: str, count: int) -> Lots:
        """Who brought the so many that were eaten or opened at a place on a night."""
        gone = self._gone.get((day, place, unit_id), ())
        return _take(list(gone), gone, count)

    def _count(self, held: _Held, day: int, night: list[Document]) -> None:
        """Hold what was brought against what stands there after a night."""
        for entry in night:
            place, counts = entry["place"], counts_of(entry["units"])
            for where, unit_id in list(held):
                if where == place:
                    lots = held[place, unit_id]
                    fewer = sum(lot.count for lot in lots) - counts.get(unit_id, 0)
                    self._gone[day, place, unit_id] = _take(lots, list(lots), fewer)
            opened: dict[str, list[Lot]] = {}
            for unit_id in counts:
                if "/open-" in unit_id and (place, unit_id) not in held:
                    closed = unit_id.partition("/open-")[0]
                    gone = list(self._gone.get((day, place, closed), ()))
                    lots = opened.setdefault(closed, gone)
                    held[place, unit_id] = list(_take(lots, list(lots), 1))
                self._there[day, place, unit_id] = tuple(held.get((place, unit_id), ()))


def _move(held: _Held, trip: Document) -> None:
    """Take what is carried on a trip from where it begins to where it ends."""
    for load in trip["loads"]:
        who = load["person_id"]
        for unit_id, count in carried(load).items():
            lots = held.setdefault((trip["from"], unit_id), [])
            own = [lot for lot in lots if lot.person_id == who]
            others = [lot for lot in lots if lot.person_id != who]
            _take(lots, [*reversed(own), *reversed(others)], count)
            held.setdefault((trip["to"], unit_id), []).append(Lot(trip["day"], who, count))


def _take(lots: list[Lot], order: Sequence[Lot], count: int) -> Lots:
    """Take at most so many out of lots, in the order given; what was taken."""
    taken = []
    for lot in order:
        some = min(count, lot.count)
        if some > 0:
            at = lots.index(lot)
            lots[at : at + 1] = [replace(lot, count=lot.count - some)] if some < lot.count else []
            taken.append(replace(lot, count=some))
            count -= some
    return tuple(taken)


def origin_words(
    what: str, count: int, lots: Lots, *, tonight: int, person: Callable[[str], str] = str
) -> str:
    """So many of a thing with who brought them when, the last first, as of a night.

    `stove, brought today by ann`, `5 x can: 1 brought today by bob, 4 on day 2 by ann`. What nobody
    brought was there from the start, or flew in: `4 here before`.
    """
    days = [
        (day, tuple(group))
        for day, group in groupby(sorted(lots, key=lambda lot: -lot.day), key=lambda lot: lot.day)
    ]
    if not days:
        return what
    parts = []
    for day, group in days:
        number = sum(lot.count for lot in group)
        when = "today" if day == tonight else f"on day {day}"
        words = f"{when} by {_names(group, person)}"
        parts.append((number, words))
    before = count - sum(number for number, _ in parts)
    if len(parts) == 1 and not before:
        return f"{what}, brought {parts[0][1]}"
    said = [f"{number} {words}" for number, words in parts]
    said[0] = f"{parts[0][0]} brought {parts[0][1]}"
    return f"{what}: {', '.join([*said, *([f'{before} here before'] if before else [])])}"


def _names(lots: Lots, person: Callable[[str], str]) -> str:
    """Who brought some, with how many where more than one person did: `ann (2) and bob (1)`."""
    each: Counter[str] = Counter()
    for lot in lots:
        each[lot.person_id] += lot.count
    if len(each) == 1:
        return person(next(iter(each)))
    are_many = sum(each.values()) > len(each)
    named = [f"{person(who)} ({n})" if are_many else person(who) for who, n in each.items()]
    return f"{', '.join(named[:-1])} and {named[-1]}"
