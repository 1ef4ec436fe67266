"""Who must know what a night set contains."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from api_schema.menu import MenuRequest
from service.translate.read.guests import eaters, kitchen_of, known_menus, of_kitchen
from service.translate.read.notes import Notes, pointer_to
from solver.problem import Person


def say_what_is_eaten(menu: MenuRequest | None, people: Sequence[Person], notes: Notes) -> None:
    """A fault for each set of which somebody must know what it contains, and it is not said."""
    groups = tuple(dict.fromkeys(person.cook_group_id for person in people))
    careful: dict[str, list[str]] = {}
    for person in people:
        near = of_kitchen(kitchen_of(person.cook_group_id), groups) if person.reacts_to else ()
        for group in near or ((person.cook_group_id,) if person.avoids else ()):
            careful.setdefault(group, []).append(person.person_id)
    if menu is None:
        if careful:
            notes.fault(
                "/menu",
                "contents_not_said",
                f"{_those_in(careful, careful)} must avoid some food, and what generic night sets "
                "contain is not known. Write the menu with what each set contains.",
            )
        return
    for index, wire in enumerate(menu.night_sets):
        eating = eaters(wire.cook_group, wire.menu, careful, known_menus(menu))
        if eating and wire.contains is None:
            notes.fault(
                pointer_to("menu", "night_sets", index, "contains"),
                "contents_not_said",
                f"{_those_in(careful, eating)} must avoid some food. Say what this set contains; "
                "write [] where it is none of what anybody avoids.",
            )


def _those_in(careful: Mapping[str, Sequence[str]], groups: Iterable[str]) -> str:
    return " and ".join(dict.fromkeys(person for group in groups for person in careful[group]))
