"""People and sleds of a request, read onto the grid: caps down, what they must carry up."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from api_schema.roster import PersonRequest
from service.translate.read import defaults
from service.translate.read.caps import read_caps, read_load_limit_g
from service.translate.read.defaults import PRACTICE, Default
from service.translate.read.guests import group_id
from service.translate.read.notes import Notes, pointer_to
from solver.problem import Person


def read_roster(roster: Sequence[PersonRequest], notes: Notes) -> tuple[Person, ...]:
    """Everybody, in the order of the request."""
    notes.point(("roster",), "/roster")
    return tuple(_read_person(person, index, notes) for index, person in enumerate(roster))


def _read_person(person: PersonRequest, index: int, notes: Notes) -> Person:
    pointer = pointer_to("roster", index)
    notes.point(("roster", index), pointer)
    carried = _carried(person, pointer, notes)
    return Person(
        person_id=person.person_id,
        caps=read_caps(person, index, notes),
        pack_volume_ml=carried.pack_volume_ml,
        rope_team_id=person.rope_team or defaults.ROPE_TEAM_ID,
        cook_group_id=group_id(person.cook_group or defaults.COOK_GROUP_ID, person.menu),
        water_g=carried.water_g,
        first_lunch_g=carried.first_lunch_g,
        body_mass_g=_given(person.body_mass, f"{pointer}/body_mass", notes.mass_up),
        role=person.role or "",
        name=person.name or "",
        is_guide=person.guide,
        is_strong=person.strong,
        load_limit_g=read_load_limit_g(person, pointer, notes),
        load_limit_reason=person.load_limit_reason or "",
        kit_to_rope_team=person.kit_to_rope_team,
        avoids=tuple(dict.fromkeys(person.avoids)),
        reacts_to=tuple(dict.fromkeys(person.reacts_to)),
        diet=person.diet,
        summit_water_g=_given(person.summit_water, f"{pointer}/summit_water", notes.volume_up),
        flying_mass_g=_given(person.flying_mass, f"{pointer}/flying_mass", notes.mass_up),
    )


def _given(text: str | None, pointer: str, read: Callable[[str, str], int]) -> int | None:
    """What is given, read onto the grid; None where it is left out."""
    return None if text is None else read(text, pointer)


@dataclass(frozen=True, slots=True)
class _Carried:
    """What everybody has with them, given or a default [mL, g]."""

    pack_volume_ml: int
    water_g: int
    first_lunch_g: int


def _carried(person: PersonRequest, pointer: str, notes: Notes) -> _Carried:
    def take(
        field: str, text: str | None, default: Default, read: Callable[[str, str], int]
    ) -> int:
        here = f"{pointer}/{field}"
        return notes.default(here, default) if text is None else read(text, here)

    carried = _Carried(
        take("pack_volume", person.pack_volume, defaults.PACK_VOLUME, notes.volume_down),
        # A litre of water is a kilogram to within what a bottle is filled to.
        take("water", person.water, defaults.WATER, notes.volume_up),
        take("first_lunch", person.first_lunch, defaults.FIRST_LUNCH, notes.mass_up),
    )
    for field, given, what, taken in (
        ("rope_team", person.rope_team, "Rope team.", defaults.ROPE_TEAM_ID),
        ("cook_group", person.cook_group, "Cook group.", defaults.COOK_GROUP_ID),
    ):
        if given is None:
            notes.assume(f"{pointer}/{field}", what, taken, PRACTICE)
    return carried
