"""Who keeps each single thing that all share.

A plan may name its keepers itself; then those are taken. Otherwise the keeper of a thing is who has
it on the most trips, the first of several.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import Any

from service.reports.paper.things import Things, by_unit

Document = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Keeper:
    """A thing, who keeps it, and on how many of its trips each of the others has it."""

    unit_id: str
    person_id: str
    trips: int
    others: tuple[tuple[str, int], ...]


def keepers_of(plan: Document) -> tuple[Keeper, ...]:
    """The keepers of a plan, in the order of the roster and then of the things."""
    people = list(
        dict.fromkeys(load["person_id"] for trip in plan["trips"] for load in trip["loads"])
    )
    found = _named(plan) if plan.get("keepers") is not None else _found(plan)
    return tuple(sorted(found, key=lambda keeper: people.index(keeper.person_id)))


def _named(plan: Document) -> list[Keeper]:
    """The keepers that the plan itself names."""
    return [
        Keeper(
            told["unit_id"],
            told["person_id"],
            told["trips"],
            tuple(Counter(trip["person_id"] for trip in told["elsewhere"]).items()),
        )
        for told in plan["keepers"]
    ]


def _found(plan: Document) -> list[Keeper]:
    """Keepers read from the loads, for each piece of shared gear of which there is one."""
    things = Things(plan)
    counts = {unit["unit_id"]: unit["count"] for unit in plan["taken_along"]}
    rides: dict[str, Counter[str]] = {}
    for trip in plan["trips"]:
        for unit_id, has in by_unit(trip).items():
            rides.setdefault(unit_id, Counter()).update(has.keys())
    return [
        Keeper(unit_id, who.most_common(1)[0][0], who.total(), tuple(who.most_common()[1:]))
        for unit_id, who in rides.items()
        if counts.get(unit_id) == 1
        and things.kind(unit_id) == "gear"
        and things.owner(unit_id) is None
    ]
