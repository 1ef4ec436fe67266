"""People with a menu of their own in a kitchen that they share: guests of its cook group.

In the problem they are a cook group of their own that eats from the other's kitchen. It is called
by the kitchen and the menu, `all+vegetarian`; no id of the wire has a plus in it.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from api_schema.menu import MenuRequest
from api_schema.roster import PersonRequest
from service.translate.read.notes import Notes, pointer_to

_JOINED_BY = "+"


def group_id(kitchen: str, menu: str | None) -> str:
    """The cook group of those who eat a menu from a kitchen; the kitchen's own for no menu."""
    return kitchen if menu is None else f"{kitchen}{_JOINED_BY}{menu}"


def kitchen_of(group: str) -> str:
    """The kitchen of a cook group: itself for one that is no guest."""
    return group.partition(_JOINED_BY)[0]


def menu_of(group: str) -> str | None:
    """The menu of guests; None for a cook group that eats what has no menu."""
    return group.partition(_JOINED_BY)[2] or None


def is_guest(group: str) -> bool:
    """Whether a cook group eats from the kitchen of another."""
    return _JOINED_BY in group


def of_kitchen(kitchen: str | None, groups: Iterable[str]) -> tuple[str, ...]:
    """The cook groups that eat from a kitchen; all of them where none is named."""
    return tuple(group for group in groups if kitchen in {None, kitchen_of(group)})


def eaters(
    kitchen: str | None, menu: str | None, groups: Iterable[str], known: frozenset[str]
) -> tuple[str, ...]:
    """The cook groups that eat a menu; who has an unknown one, which is a fault, eats as others."""
    return tuple(
        group
        for group in of_kitchen(kitchen, groups)
        if menu == (menu_of(group) if menu_of(group) in known else None)
    )


def known_menus(menu: MenuRequest | None) -> frozenset[str]:
    """The menus that the night sets of a request name."""
    sets = () if menu is None else menu.night_sets
    return frozenset(wire.menu for wire in sets if wire.menu is not None)


def note_unknown_menus(
    menu: MenuRequest | None, roster: Sequence[PersonRequest], notes: Notes
) -> None:
    """A fault for each person whose menu no night set is of."""
    known = known_menus(menu)
    for index, person in enumerate(roster):
        if person.menu is not None and person.menu not in known:
            names = ", ".join(sorted(known)) or "none"
            notes.fault(
                pointer_to("roster", index, "menu"),
                "unknown_id",
                f"No night set is of the menu {person.menu}. Known are: {names}.",
            )
