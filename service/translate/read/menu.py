"""Night sets of a request, and which of them each cook group uses where it sleeps."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from api_schema.menu import MenuRequest
from service.translate.read import quantities
from service.translate.read.generic_menu import generic_menu
from service.translate.read.guests import eaters, is_guest, known_menus
from service.translate.read.menu_types import OpenFuel, SetAt, SleptAt
from service.translate.read.night_sets import read_night_set
from service.translate.read.notes import Notes, pointer_to
from solver.problem import NightSet, Place, RuleSettings

MOST_NIGHT_SETS = 40
"""Night sets that one cook group may have."""


def read_menu(
    menu: MenuRequest | None,
    slept_at: SleptAt,
    places: Sequence[Place],
    notes: Notes,
    *,
    rules: RuleSettings,
) -> tuple[tuple[NightSet, ...], SetAt, OpenFuel]:
    """The night sets, each for one cook group, where they are used, and whose fuel is open.

    An open fuel is nought until it is computed.
    """
    elevations = {place.place_id: place.elevation_m for place in places}
    if menu is None:
        return generic_menu(slept_at, elevations, notes, rules)
    notes.point(("night_sets",), "/menu/night_sets")
    menu = _within_most(menu, slept_at, notes)
    menus = known_menus(menu)
    night_sets: list[NightSet] = []
    for index, wire in enumerate(menu.night_sets):
        pointer = pointer_to("menu", "night_sets", index)
        _note_unknown_group(wire.cook_group, pointer, slept_at, notes)
        for group in eaters(wire.cook_group, wire.menu, slept_at, menus):
            notes.point(("night_sets", len(night_sets)), pointer)
            night_sets.append(read_night_set(wire, group, pointer, notes))
            if wire.name:
                notes.names[night_sets[-1].unit_id] = wire.name
    named = _named_places(menu, slept_at, elevations, notes)
    used: SetAt = {}
    for group, slept in slept_at.items():
        used[group] = dict(named.get(group, {}))
        for place in slept:
            if place in used[group] or place not in elevations:
                continue
            set_id = _by_elevation(menu, group, place, elevations[place], notes)
            if set_id is not None:
                used[group][place] = set_id
    return tuple(night_sets), used, _open_fuel(menu, slept_at)


def _within_most(menu: MenuRequest, slept_at: SleptAt, notes: Notes) -> MenuRequest:
    """The menu; where a cook group has too many night sets, the first ones and a fault."""
    for group in slept_at:
        count = sum(wire.cook_group in (None, group) for wire in menu.night_sets)
        if count > MOST_NIGHT_SETS:
            notes.fault(
                "/menu/night_sets",
                "too_many",
                f"Cook group {group} has {count} night sets. Give it at most {MOST_NIGHT_SETS}.",
            )
            return menu.model_copy(update={"night_sets": menu.night_sets[:MOST_NIGHT_SETS]})
    return menu


def _open_fuel(menu: MenuRequest, slept_at: SleptAt) -> OpenFuel:
    known = known_menus(menu)
    return {
        (group, wire.set_id): pointer_to("menu", "night_sets", index, "fuel")
        for index, wire in enumerate(menu.night_sets)
        if wire.fuel is None
        for group in eaters(wire.cook_group, wire.menu, slept_at, known)
    }


def _note_unknown_group(given: str | None, pointer: str, known: SleptAt, notes: Notes) -> None:
    kitchens = [group for group in known if not is_guest(group)]
    if given is not None and given not in kitchens:
        notes.unknown_id(f"{pointer}/cook_group", "cook group", given, kitchens)


def _named_places(
    menu: MenuRequest, slept_at: SleptAt, elevations: Mapping[str, int], notes: Notes
) -> SetAt:
    named: SetAt = {}
    for index, entry in enumerate(menu.used_at):
        pointer = pointer_to("menu", "used_at", index)
        known_sets = {s.set_id for s in menu.night_sets}
        if entry.place not in elevations:
            notes.unknown_id(f"{pointer}/place", "place", entry.place, elevations)
        if entry.set_id not in known_sets:
            notes.unknown_id(f"{pointer}/set_id", "night set", entry.set_id, sorted(known_sets))
        _note_unknown_group(entry.cook_group, pointer, slept_at, notes)
        for group in eaters(entry.cook_group, entry.menu, slept_at, known_menus(menu)):
            named.setdefault(group, {})[entry.place] = entry.set_id
    return named


def _by_elevation(
    menu: MenuRequest, group: str, place: str, elevation_m: int, notes: Notes
) -> str | None:
    """The one set, no storm set, whose elevation band holds the place; a fault when not one."""
    known = known_menus(menu)
    fitting = [
        wire.set_id
        for wire in menu.night_sets
        if group in eaters(wire.cook_group, wire.menu, (group,), known)
        and not wire.storm
        and (
            wire.from_elevation is None
            or quantities.whole_nearest(wire.from_elevation) <= elevation_m
        )
        and (
            wire.below_elevation is None
            or elevation_m < quantities.whole_nearest(wire.below_elevation)
        )
    ]
    if len(fitting) == 1:
        return fitting[0]
    how = "no night set is" if not fitting else f"several night sets are ({', '.join(fitting)})"
    notes.fault(
        "/menu/night_sets",
        "no_night_set" if not fitting else "several_night_sets",
        f"Cook group {group} sleeps at {place}, {elevation_m} m, where {how} used. Set the "
        "elevation bands so that one is, or name the set in used_at.",
    )
    return None
