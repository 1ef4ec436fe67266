"""Where units of one kind stand, night by night: traced from their last place back to the first.

All units of a kind are alike, so a plan says how many ride and stand, not which. Traced backward,
any choice of which ones rode agrees with those numbers. Those that are used last ride last.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import groupby
from typing import Any, NamedTuple

Document = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Use:
    """So many units that are used on the night of a day at a place."""

    day: int
    place: str
    count: int


class Wait(NamedTuple):
    """A place, and the first and last day whose nights something stands there without a break."""

    place: str
    from_day: int
    to_day: int


@dataclass(frozen=True, slots=True)
class Traced:
    """Alike units with one use, or none, and one way: their nights in order, and how far they go.

    `turns_at` is where their last outbound trip ends, None for units that make none.
    """

    count: int
    used: tuple[int, str] | None
    nights: tuple[tuple[int, str], ...] = ()
    turns_at: str | None = None

    @property
    def waits(self) -> tuple[Wait, ...]:
        """The nights, those in a row at one place together."""
        return waits_of(self.nights)


def trace(plan: Document, unit_id: str, uses: Iterable[Use]) -> list[Traced]:
    """Units of a kind by use and way, in the order of use; those that no night uses come last.

    `plan` is the ledger of a solved outcome; the stock of its first night is where all begin.
    """
    days = sorted({night["day"] for night in plan["stock"]})
    first, last = days[0], days[-1]
    piles: dict[str, list[Traced]] = {}
    for night in plan["stock"]:
        if night["day"] == last and (kept := _count(night["units"], unit_id)):
            piles[night["place"]] = [Traced(kept, None)]
    waiting = list(uses)
    for day in range(last, first - 1, -1):
        _stand(piles, day)
        for use in waiting:
            if use.day == day:
                piles.setdefault(use.place, []).append(Traced(use.count, (day, use.place)))
        _undo_trips(piles, plan, day, unit_id)
    return sorted(_alike(piles), key=lambda one: (_used_on(one), one.nights))


def waits_of(nights: Iterable[tuple[int, str]]) -> tuple[Wait, ...]:
    """Days with places, in order; nights in a row at one place are one wait."""
    runs = groupby(enumerate(nights), key=lambda pair: (pair[1][1], pair[1][0] - pair[0]))
    found = []
    for (place, _), run in runs:
        stood = [day for _, (day, _) in run]
        found.append(Wait(place, stood[0], stood[-1]))
    return tuple(found)


def apart_from(
    plan: Document, slept: Mapping[int, str], unit_ids: Collection[str]
) -> dict[str, tuple[int, list[tuple[int, str]]]]:
    """Units that stand on nights of `slept` where their owner does not sleep: how many, and when.

    `slept` is the owner's place by day. The count is the largest of any night.
    """
    found: dict[str, dict[tuple[int, str], int]] = {}
    for night in plan["stock"]:
        where = (night["day"], night["place"])
        if slept.get(where[0], where[1]) != where[1]:
            for unit in night["units"]:
                if unit["unit_id"] in unit_ids:
                    found.setdefault(unit["unit_id"], {})[where] = unit["count"]
    return {unit_id: (max(nights.values()), sorted(nights)) for unit_id, nights in found.items()}


def _stand(piles: dict[str, list[Traced]], day: int) -> None:
    """All units stand where they are on the night of a day."""
    for place, pile in piles.items():
        piles[place] = [replace(one, nights=((day, place), *one.nights)) for one in pile]


def _undo_trips(piles: dict[str, list[Traced]], plan: Document, day: int, unit_id: str) -> None:
    """Units go back to where the trips of a day took them up; those of one step all at once."""
    trips = [trip for trip in plan["trips"] if trip["day"] == day]
    for step in sorted({trip["step"] for trip in trips}, reverse=True):
        moved: list[tuple[str, Traced]] = []
        for trip in trips:
            if trip["step"] == step:
                riding = sum(_count((*ld["pack"], *ld["sled"]), unit_id) for ld in trip["loads"])
                taken = _take(piles.setdefault(trip["to"], []), riding)
                moved += ((trip["from"], _went(one, trip)) for one in taken)
        for place, one in moved:
            piles.setdefault(place, []).append(one)


def _went(one: Traced, trip: Document) -> Traced:
    """Units after a trip is put before their way."""
    if one.turns_at is None and trip["direction"] == "outbound":
        return replace(one, turns_at=trip["to"])
    return one


def _take(pile: list[Traced], count: int) -> Iterator[Traced]:
    """So many units out of a pile: those used last before those used first."""
    pile.sort(key=_used_on)
    while count and pile:
        one = pile.pop()
        taken = min(count, one.count)
        if taken < one.count:
            pile.append(replace(one, count=one.count - taken))
        count -= taken
        yield replace(one, count=taken)


def _alike(piles: dict[str, list[Traced]]) -> Iterator[Traced]:
    """Units that ended in one pile by the same way for the same use, counted together."""
    counts: dict[Traced, int] = {}
    for pile in piles.values():
        for one in pile:
            key = replace(one, count=0)
            counts[key] = counts.get(key, 0) + one.count
    return (replace(key, count=count) for key, count in counts.items())


def _used_on(one: Traced) -> float:
    """The day of use; what is never used comes after all."""
    return float("inf") if one.used is None else one.used[0]


def _count(units: Iterable[Document], unit_id: str) -> int:
    return sum(unit["count"] for unit in units if unit["unit_id"] == unit_id)
