"""Night sets of a request, and which of them each cook group uses where it sleeps."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from api_schema.menu import MenuRequest, NightSetRequest
from service.translate.read import defaults, quantities
from service.translate.read.defaults import PRACTICE, READ
from service.translate.read.notes import Notes, pointer_to
from solver.problem import NightSet, Person, Place

SleptAt = Mapping[str, tuple[str, ...]]
"""The places where each cook group sleeps, in the order in which it first does."""

SetAt = dict[str, dict[str, str]]
"""The night set that each cook group uses at each place."""

OpenFuel = dict[tuple[str, str], str]
"""Where the fuel could be given of each (cook group, night set) that leaves it open."""


def read_menu(
    menu: MenuRequest | None, slept_at: SleptAt, places: Sequence[Place], notes: Notes
) -> tuple[tuple[NightSet, ...], SetAt, OpenFuel]:
    """The night sets, each for one cook group, where they are used, and whose fuel is open.

    An open fuel is nought until it is reckoned.
    """
    elevations = {place.place_id: place.elevation_m for place in places}
    if menu is None:
        return _default_menu(slept_at, elevations, notes)
    notes.point(("night_sets",), "/menu/night_sets")
    night_sets: list[NightSet] = []
    for index, wire in enumerate(menu.night_sets):
        pointer = pointer_to("menu", "night_sets", index)
        if wire.cook_group is not None and wire.cook_group not in slept_at:
            _unknown(f"{pointer}/cook_group", "cook group", wire.cook_group, slept_at, notes)
        for group in slept_at if wire.cook_group is None else (wire.cook_group,):
            notes.point(("night_sets", len(night_sets)), pointer)
            night_sets.append(_read_set(wire, group, pointer, notes))
            if wire.name:
                notes.names[night_sets[-1].unit_id] = wire.name
    named = _named_places(menu, slept_at, elevations, notes)
    used: SetAt = {}
    for group, slept in slept_at.items():
        used[group] = dict(named.get(group, {}))
        for place in slept:
            if place in used[group] or place not in elevations:
                continue
            set_id = _by_height(menu, group, place, elevations[place], notes)
            if set_id is not None:
                used[group][place] = set_id
    return tuple(night_sets), used, _open_fuel(menu, slept_at)


def _open_fuel(menu: MenuRequest, slept_at: SleptAt) -> OpenFuel:
    return {
        (group, wire.set_id): pointer_to("menu", "night_sets", index, "fuel")
        for index, wire in enumerate(menu.night_sets)
        if wire.fuel is None
        for group in (slept_at if wire.cook_group is None else (wire.cook_group,))
    }


def _unknown(pointer: str, what: str, given: str, known: SleptAt, notes: Notes) -> None:
    names = ", ".join(known) or "none"
    notes.fault(pointer, "unknown_id", f"There is no {what} {given}. Known are: {names}.")


def _named_places(
    menu: MenuRequest, slept_at: SleptAt, elevations: Mapping[str, int], notes: Notes
) -> SetAt:
    named: SetAt = {}
    for index, entry in enumerate(menu.used_at):
        pointer = pointer_to("menu", "used_at", index)
        known_sets = {s.set_id for s in menu.night_sets}
        if entry.place not in elevations:
            known = ", ".join(elevations)
            notes.fault(
                f"{pointer}/place",
                "unknown_id",
                f"There is no place {entry.place}. Known are: {known}.",
            )
        if entry.set_id not in known_sets:
            known = ", ".join(sorted(known_sets))
            notes.fault(
                f"{pointer}/set_id",
                "unknown_id",
                f"There is no night set {entry.set_id}. Known are: {known}.",
            )
        if entry.cook_group is not None and entry.cook_group not in slept_at:
            _unknown(f"{pointer}/cook_group", "cook group", entry.cook_group, slept_at, notes)
        for group in slept_at if entry.cook_group is None else (entry.cook_group,):
            named.setdefault(group, {})[entry.place] = entry.set_id
    return named


def _by_height(
    menu: MenuRequest, group: str, place: str, elevation_m: int, notes: Notes
) -> str | None:
    """The one set, no storm set, whose height band holds the place; a fault when not one."""
    fitting = [
        wire.set_id
        for wire in menu.night_sets
        if wire.cook_group in (None, group)
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
        f"Cook group {group} sleeps at {place}, {elevation_m} m, where {how} used. Set the height "
        "bands so that one is, or name the set in used_at.",
    )
    return None


def _read_set(wire: NightSetRequest, group: str, pointer: str, notes: Notes) -> NightSet:
    return NightSet(
        set_id=wire.set_id,
        cook_group_id=group,
        gross_g=notes.mass_up(wire.mass, f"{pointer}/mass"),
        packaging_g=notes.mass_up(wire.packaging, f"{pointer}/packaging"),
        lunch_g=notes.mass_up(wire.lunch, f"{pointer}/lunch"),
        volume_ml=notes.volume_up(wire.volume, f"{pointer}/volume"),
        fuel_ml=0 if wire.fuel is None else notes.volume_up(wire.fuel, f"{pointer}/fuel"),
        sets_per_bag=wire.sets_per_bag,
        bag_count=wire.bags,
        storm=wire.storm,
        energy_kcal=wire.energy_kcal,
        contains=tuple(dict.fromkeys(wire.contains or ())),
        diets=tuple(dict.fromkeys(wire.suits_diets)),
        simmers=wire.simmers,
        lowest_m=_elevation_m(wire.lowest),
        highest_m=_elevation_m(wire.highest),
        dinner_kinds=wire.dinner_kinds,
        lunch_needs_cooking=wire.lunch_needs_cooking,
        lunch_kcal=wire.lunch_energy_kcal,
        spoils_below_c=(
            None if wire.spoils_below is None else quantities.temperature_c(wire.spoils_below)
        ),
    )


def _elevation_m(text: str | None) -> int | None:
    return None if text is None else quantities.whole_nearest(text)


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


def _default_menu(
    slept_at: SleptAt, elevations: Mapping[str, int], notes: Notes
) -> tuple[tuple[NightSet, ...], SetAt, OpenFuel]:
    """The generic sets that the places need, and the generic storm set."""
    notes.point(("night_sets",), "/menu")
    used: SetAt = {
        group: {p: _band(elevations[p]).set_id for p in slept if p in elevations}
        for group, slept in slept_at.items()
    }
    wanted = {set_id for places in used.values() for set_id in places.values()}
    taken = [s for s in defaults.BANDS if s.set_id in wanted]
    for chosen in (*taken, defaults.STORM):
        notes.assume(
            "/menu",
            f"Night set {chosen.set_id}, {chosen.band}: gross mass and energy.",
            f"{chosen.gross_g} g, {chosen.energy_kcal} kcal",
            READ,
        )
        notes.assume(
            "/menu",
            f"Night set {chosen.set_id}: packaging, travel lunch, volume.",
            f"{chosen.packaging_g} g, {chosen.lunch_g} g, {chosen.volume_ml / 1000:g} L",
            PRACTICE,
        )
    night_sets = tuple(
        NightSet(
            set_id=chosen.set_id,
            cook_group_id=group,
            gross_g=chosen.gross_g,
            packaging_g=chosen.packaging_g,
            lunch_g=chosen.lunch_g,
            volume_ml=chosen.volume_ml,
            fuel_ml=0,
            storm=chosen is defaults.STORM,
            energy_kcal=chosen.energy_kcal,
        )
        for group in slept_at
        for chosen in (*taken, defaults.STORM)
    )
    for night_set in night_sets:
        notes.names[night_set.unit_id] = f"bag of 1 night set, {night_set.set_id}"
    return night_sets, used, {(s.cook_group_id, s.set_id): "/menu" for s in night_sets}


def _band(elevation_m: int) -> defaults.DefaultSet:
    return next(s for s in defaults.BANDS if s.below_m is None or elevation_m < s.below_m)
