"""Everybody's own things that are in their pack on every trip, listed once and not each time."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from service.reports.paper.things import Things, counts_of, stowed

Document = dict[str, Any]


class OwnKit:
    """The personal things that each person has in the pack on every one of their trips."""

    def __init__(self, plan: Document) -> None:
        things = Things(plan)
        self._each_kg = {unit["unit_id"]: unit["each_kg"] for unit in plan["taken_along"]}
        self._kit: dict[str, dict[str, int]] = {}
        for trip in plan["trips"]:
            for load in trip["loads"]:
                person_id = load["person_id"]
                own = {
                    unit_id: count
                    for unit_id, count in counts_of(load["pack"]).items()
                    if things.owner(unit_id) == person_id
                }
                before = self._kit.get(person_id, own)
                self._kit[person_id] = {
                    unit_id: count for unit_id, count in before.items() if own.get(unit_id) == count
                }

    def listed(self, things: Things) -> Iterator[tuple[str, float, str]]:
        """Each person with the mass of their kit [kg], in use or not, and the kit in words."""
        for person_id, kit in self._kit.items():
            kg = sum(count * self._each_kg.get(unit_id, 0.0) for unit_id, count in kit.items())
            yield person_id, kg, things.listed(kit, person_id) or "nothing on every trip"

    def split(self, load: Document) -> tuple[str, dict[str, int]]:
        """The words for the kit in a pack, and all else that is in it; what is in use is not."""
        kit = self._kit[load["person_id"]]
        pack = stowed(load["pack"])
        return (
            "own kit" if kit.keys() & pack.keys() else "",
            {unit_id: count for unit_id, count in pack.items() if unit_id not in kit},
        )
