"""Who must know what a night set contains."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from api_schema.menu import MenuRequest
from service.translate.read.notes import Notes, pointer_to
from solver.problem import Person


def say_what_is_eaten(menu: MenuRequest | None, people: Sequence[Person], notes: Notes) -> None:
    """A fault for each set of which somebody must know what it contains, and it is not said."""
    careful: dict[str, list[str]] = {}
    for person in people:
        if person.avoids or person.reacts_to:
            careful.setdefault(person.cook_group_id, []).append(person.person_id)
    if menu is None:
        if careful:
            notes.fault(
                "/menu",
                "contents_not_said",
                f"{_those_in(careful)} must avoid some food, and what generic night sets contain "
                "is not known. Write the menu with what each set contains.",
            )
        return
    for index, wire in enumerate(menu.night_sets):
        eaters = {group: ids for group, ids in careful.items() if wire.cook_group in (None, group)}
        if eaters and wire.contains is None:
            notes.fault(
                pointer_to("menu", "night_sets", index, "contains"),
                "contents_not_said",
                f"{_those_in(eaters)} must avoid some food. Say what this set contains; write [] "
                "where it is none of what anybody avoids.",
            )


def _those_in(careful: Mapping[str, Sequence[str]]) -> str:
    return " and ".join(person for ids in careful.values() for person in ids)
