"""Who keeps each thing that all share, and on which trips somebody else has it.

A plan may name its keepers itself; then those are taken. Otherwise the keeper of a thing is who has
it on the most trips, the first of several.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from service.reports.paper.things import Things, by_unit

Document = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Elsewhere:
    """Somebody other than the keeper who has some of a kept thing on one trip."""

    day: int
    step: int
    from_place: str
    to_place: str
    person_id: str
    count: int

    def as_document(self) -> Document:
        """It as an answer has it."""
        return {
            "day": self.day,
            "step": self.step,
            "from": self.from_place,
            "to": self.to_place,
            "person_id": self.person_id,
            "count": self.count,
        }


@dataclass(frozen=True, slots=True)
class Keeper:
    """A thing or `count` alike ones, who keeps them, on how many trips they ride, and exceptions.

    Of several alike things the keeper has most.
    """

    unit_id: str
    count: int
    person_id: str
    trips: int
    elsewhere: tuple[Elsewhere, ...]

    @property
    def others(self) -> tuple[tuple[str, int], ...]:
        """Who else has it, each with on how many trips."""
        return tuple(Counter(one.person_id for one in self.elsewhere).items())


def keepers_of(plan: Document) -> tuple[Keeper, ...]:
    """The keepers of a plan, in the order of the roster and then of the things."""
    people = list(
        dict.fromkeys(load["person_id"] for trip in plan["trips"] for load in trip["loads"])
    )
    found = _named(plan) if plan.get("keepers") is not None else list(_found(plan))
    return tuple(sorted(found, key=lambda keeper: people.index(keeper.person_id)))


def _named(plan: Document) -> list[Keeper]:
    """The keepers that the plan itself names."""
    return [
        Keeper(
            named["unit_id"],
            named["count"],
            named["person_id"],
            named["trips"],
            tuple(_elsewhere(one, one["person_id"], one["count"]) for one in named["elsewhere"]),
        )
        for named in plan["keepers"]
    ]


def _found(plan: Document) -> Iterator[Keeper]:
    """Keepers read from the loads, for each piece of shared gear of which there is one."""
    things = Things(plan)
    counts = {unit["unit_id"]: unit["count"] for unit in plan["taken_along"]}
    rides: dict[str, list[tuple[Document, str]]] = {}
    for trip in plan["trips"]:
        for unit_id, has in by_unit(trip).items():
            rides.setdefault(unit_id, []).extend((trip, person_id) for person_id in has)
    for unit_id, ridden in rides.items():
        if (
            counts.get(unit_id) == 1
            and things.kind(unit_id) == "gear"
            and not things.owner(unit_id)
        ):
            who = Counter(person_id for _, person_id in ridden).most_common(1)[0][0]
            others = (_elsewhere(trip, other, 1) for trip, other in ridden if other != who)
            yield Keeper(unit_id, 1, who, len(ridden), tuple(others))


def _elsewhere(trip: Document, person_id: str, count: int) -> Elsewhere:
    return Elsewhere(trip["day"], trip["step"], trip["from"], trip["to"], person_id, count)
