"""People and sleds of a request, read onto the grid: caps down, what they must carry up."""

from __future__ import annotations

from collections.abc import Sequence

from api_schema.roster import PackCapsRequest, PersonRequest, SledRequest
from service.translate.read import defaults, quantities
from service.translate.read.defaults import PRACTICE, READ
from service.translate.read.notes import Notes, pointer_to
from solver.problem import Caps, Direction, LegMode, Person, Sled


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
        pack_volume_ml = defaults.PACK_VOLUME_ML
        notes.assume(f"{pointer}/pack_volume", "Volume of the pack.", "85 L", PRACTICE)
    if person.water is not None:
        # A litre of water is a kilogram to within what a bottle is filled to.
        water_g = notes.volume_up(person.water, f"{pointer}/water")
    else:
        water_g = defaults.WATER_G
        notes.assume(f"{pointer}/water", "Water carried on every trip.", "2 L", PRACTICE)
    if person.first_lunch is not None:
        first_lunch_g = notes.mass_up(person.first_lunch, f"{pointer}/first_lunch")
    else:
        first_lunch_g = defaults.FIRST_LUNCH_G
        notes.assume(f"{pointer}/first_lunch", "Travel lunch of day 1.", "350 g", PRACTICE)
    for field, given, what, taken in (
        ("rope_team", person.rope_team, "Rope team.", defaults.ROPE_TEAM_ID),
        ("cook_group", person.cook_group, "Cook group.", defaults.COOK_GROUP_ID),
    ):
        if given is None:
            notes.assume(f"{pointer}/{field}", what, taken, PRACTICE)
    return Person(
        person_id=person.person_id,
        caps=_read_caps(person, index, notes),
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
        load_limit_g=_load_limit_g(person, pointer, notes),
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


def _load_limit_g(person: PersonRequest, pointer: str, notes: Notes) -> int | None:
    """What somebody weak or hurt carries at most [g]; the limit and its reason go together."""
    if person.load_limit is None:
        if person.load_limit_reason is not None:
            notes.fault(
                f"{pointer}/load_limit",
                "missing",
                "There is a reason for a load limit, but no limit. Give it, or leave both out.",
            )
        return None
    if person.load_limit_reason is None:
        notes.fault(f"{pointer}/load_limit_reason", "missing", "Say why there is a load limit.")
    return notes.mass_down(person.load_limit, f"{pointer}/load_limit")


def _read_caps(person: PersonRequest, index: int, notes: Notes) -> Caps:
    pointer = pointer_to("roster", index)
    pack_g = notes.mass_down(person.pack_cap, f"{pointer}/pack_cap")
    sled_g = 0
    if person.sled_cap is not None:
        sled_g = notes.mass_down(person.sled_cap, f"{pointer}/sled_cap")
    if person.total_cap is not None:
        total_g: int | None = notes.mass_down(person.total_cap, f"{pointer}/total_cap")
    elif sled_g:
        total_g = min(pack_g + sled_g, defaults.TOTAL_CAP_G)
        notes.assume(
            f"{pointer}/total_cap",
            "Most in pack and on the sled together: both caps, and never over 68 kg.",
            f"{total_g / 1000:g} kg",
            READ,
        )
    else:
        total_g = None
    return Caps(pack_g, sled_g, total_g, _read_pack_caps(person.pack_caps, index, notes))


def _read_pack_caps(
    caps: PackCapsRequest, index: int, notes: Notes
) -> tuple[tuple[LegMode, Direction, int], ...]:
    read: list[tuple[LegMode, Direction, int]] = []
    for mode in LegMode:
        for direction in Direction:
            field = f"{mode.value}_{direction.value}"
            text: str | None = getattr(caps, field)
            if text is None:
                continue
            pointer = pointer_to("roster", index, "pack_caps", field)
            notes.point(("roster", index, "caps", "pack_by_leg", len(read)), pointer)
            read.append((mode, direction, notes.mass_down(text, pointer)))
    return tuple(read)


def read_sleds(
    sleds: Sequence[SledRequest] | None, people: Sequence[Person], notes: Notes
) -> tuple[Sled, ...]:
    """The sleds; left out, everybody with a sled cap hauls a generic one."""
    notes.point(("sleds",), "/sleds")
    if sleds is None:
        haulers = [person for person in people if person.caps.sled_g > 0]
        for person in haulers:
            notes.assume(
                "/sleds",
                f"Sled of {person.person_id}: tare, gross limit, volume.",
                f"4 kg, {_default_limit_g(person) / 1000:g} kg, 130 L",
                PRACTICE,
            )
        return tuple(
            Sled(
                sled_id=f"sled-{number}",
                hauler_id=person.person_id,
                tare_g=defaults.SLED_TARE_G,
                mass_limit_g=_default_limit_g(person),
                volume_ml=defaults.SLED_VOLUME_ML,
            )
            for number, person in enumerate(haulers, start=1)
        )
    return tuple(_read_sled(sled, index, people, notes) for index, sled in enumerate(sleds))


def _default_limit_g(hauler: Person | None) -> int:
    return max(defaults.SLED_MASS_LIMIT_G, hauler.caps.sled_g if hauler else 0)


def _read_sled(sled: SledRequest, index: int, people: Sequence[Person], notes: Notes) -> Sled:
    pointer = pointer_to("sleds", index)
    notes.point(("sleds", index), pointer)
    if sled.tare is not None:
        tare_g = notes.mass_up(sled.tare, f"{pointer}/tare")
    else:
        tare_g = defaults.SLED_TARE_G
        notes.assume(f"{pointer}/tare", "Mass of the empty sled with its bag.", "4 kg", PRACTICE)
    if sled.mass_limit is not None:
        limit_g = notes.mass_down(sled.mass_limit, f"{pointer}/mass_limit")
    else:
        hauler = next((p for p in people if p.person_id == sled.hauler), None)
        limit_g = _default_limit_g(hauler)
        notes.assume(
            f"{pointer}/mass_limit", "Largest gross mass.", f"{limit_g / 1000:g} kg", PRACTICE
        )
    if sled.volume is not None:
        volume_ml = quantities.whole_down(sled.volume)
    else:
        volume_ml = defaults.SLED_VOLUME_ML
        notes.assume(f"{pointer}/volume", "Volume of the sled.", "130 L", PRACTICE)
    share_percent = 50
    if sled.second_share is not None:
        share_percent = notes.within(
            quantities.whole_down(sled.second_share),
            f"{pointer}/second_share",
            least=1,
            most=99,
            unit="%",
        )
    elif sled.second_hauler is not None:
        notes.assume(f"{pointer}/second_share", "What the second hauler pulls.", "50 %", PRACTICE)
    return Sled(
        sled_id=sled.sled_id,
        hauler_id=sled.hauler,
        tare_g=tare_g,
        mass_limit_g=limit_g,
        volume_ml=volume_ml,
        second_hauler_id=sled.second_hauler,
        second_share_percent=share_percent,
    )
