"""People and sleds of a request, read onto the grid: caps down, what they must carry up."""

from __future__ import annotations

from collections.abc import Sequence

from api_schema.roster import PersonRequest
from service.translate.read import defaults
from service.translate.read.caps import read_caps, read_load_limit_g
from service.translate.read.defaults import PRACTICE
from service.translate.read.notes import Notes, pointer_to
from solver.problem import Person


def read_roster(roster: Sequence[PersonRequest], notes: Notes) -> tuple[Person, ...]:
    """Everybody, in the order of the request."""
    notes.point(("roster",), "/roster")
    return tuple(_read_person(person, index, notes) for index, person in enumerate(roster))


def _read_person(person: PersonRequest, index: int, notes: Notes) -> Person:
    pointer = pointer_to("roster", index)
    notes.point(("roster", index), pointer)
    if person.pack_volume is not None:
        pack_volume_ml = notes.volume_down(person.pack_volume, f"{pointer}/pack_volume")
    else:
        pack_volume_ml = notes.default(f"{pointer}/pack_volume", defaults.PACK_VOLUME)
    if person.water is not None:
        # A litre of water is a kilogram to within what a bottle is filled to.
        water_g = notes.volume_up(person.water, f"{pointer}/water")
    else:
        water_g = notes.default(f"{pointer}/water", defaults.WATER)
    if person.first_lunch is not None:
        first_lunch_g = notes.mass_up(person.first_lunch, f"{pointer}/first_lunch")
    else:
        first_lunch_g = notes.default(f"{pointer}/first_lunch", defaults.FIRST_LUNCH)
    for field, given, what, taken in (
        ("rope_team", person.rope_team, "Rope team.", defaults.ROPE_TEAM_ID),
        ("cook_group", person.cook_group, "Cook group.", defaults.COOK_GROUP_ID),
    ):
        if given is None:
            notes.assume(f"{pointer}/{field}", what, taken, PRACTICE)
    return Person(
        person_id=person.person_id,
        caps=read_caps(person, index, notes),
        pack_volume_ml=pack_volume_ml,
        rope_team_id=person.rope_team or defaults.ROPE_TEAM_ID,
        cook_group_id=person.cook_group or defaults.COOK_GROUP_ID,
        water_g=water_g,
        first_lunch_g=first_lunch_g,
        body_mass_g=(
            None
            if person.body_mass is None
            else notes.mass_up(person.body_mass, f"{pointer}/body_mass")
        ),
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
        summit_water_g=(
            None
            if person.summit_water is None
            else notes.volume_up(person.summit_water, f"{pointer}/summit_water")
        ),
        flying_mass_g=(
            None
            if person.flying_mass is None
            else notes.mass_up(person.flying_mass, f"{pointer}/flying_mass")
        ),
    )
