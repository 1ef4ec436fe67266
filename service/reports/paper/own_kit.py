"""Everybody's own things that are in their pack on every trip, listed once and not each time."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from service.reports.paper.things import Things, counts_of

Document = dict[str, Any]


class OwnKit:
    """The personal things that each person has in the pack on every one of their trips."""

    def __init__(self, plan: Document) -> None:
        things = Things(plan)
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

    def listed(self, things: Things) -> Iterator[tuple[str, str]]:
        """Each person with their kit in words."""
        for person_id, kit in self._kit.items():
            yield person_id, things.listed(kit, person_id) or "nothing on every trip"

    def split(self, load: Document) -> tuple[str, dict[str, int]]:
        """The words for the kit in a pack, and all else that is in it."""
        kit = self._kit[load["person_id"]]
        rest = {u: n for u, n in counts_of(load["pack"]).items() if u not in kit}
        return ("own kit" if kit else "", rest)
