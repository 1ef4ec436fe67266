"""The nights of a plan: who sleeps where, and what stands alone where nobody does."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from service.reports.paper.things import Things, counts_of

Document = dict[str, Any]


def people_of(plan: Document) -> tuple[str, ...]:
    """Everybody who carries something on some trip, in the order in which they turn up."""
    return tuple(
        dict.fromkeys(load["person_id"] for trip in plan["trips"] for load in trip["loads"])
    )


def sleepers(plan: Document, day: int) -> dict[str, tuple[str, ...]]:
    """Who sleeps at each place where a kitchen cooks on the night of a day.

    Everybody is where their last trip ended. Who has not gone yet is where their first one begins.
    """
    where: dict[str, str] = {}
    for trip in plan["trips"]:
        for load in trip["loads"]:
            if trip["day"] <= day:
                where[load["person_id"]] = trip["to"]
            else:
                where.setdefault(load["person_id"], trip["from"])
    cooked = dict.fromkeys(used["place"] for used in plan["used"] if used["day"] == day)
    everybody = people_of(plan)
    return {place: tuple(who for who in everybody if where[who] == place) for place in cooked}


@dataclass(frozen=True, slots=True)
class LeftAlone:
    """What stands at a place on a night on which nobody sleeps there, and since which night."""

    day: int
    place: str
    counts: dict[str, int]
    since: int

    @property
    def is_new(self) -> bool:
        """Whether it was something else the night before, or somebody was there."""
        return self.since == self.day

    def parts(self, things: Things, person: Callable[[str], str] = str) -> Iterator[str]:
        """It in words: what belongs to all, then what is whose, person by person."""
        by_owner: dict[str | None, dict[str, int]] = {None: {}}
        for unit_id, count in self.counts.items():
            by_owner.setdefault(things.owner(unit_id), {})[unit_id] = count
        for owner, counts in by_owner.items():
            if counts and owner is None:
                yield things.listed(counts)
            elif counts:
                yield f"of {person(str(owner))}: {things.listed(counts, owner)}"


def left_alone(plan: Document) -> Iterator[LeftAlone]:
    """What is left alone each night, place by place."""
    ends = {
        day["day"]: {places[-1] for places in day["places"].values()}
        | {used["place"] for used in plan["used"] if used["day"] == day["day"]}
        for day in plan["days"]
    }
    before: dict[str, LeftAlone] = {}
    for night in plan["stock"]:
        day, place, counts = night["day"], night["place"], counts_of(night["units"])
        if place in ends.get(day, {place}):
            before.pop(place, None)
        elif counts:
            last = before.get(place)
            is_same = last is not None and (last.day, last.counts) == (day - 1, counts)
            since = last.since if last is not None and is_same else day
            before[place] = LeftAlone(day, place, counts, since)
            yield before[place]
