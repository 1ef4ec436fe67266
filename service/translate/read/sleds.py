"""Sleds of a request, read onto the grid."""

from __future__ import annotations

from collections.abc import Sequence

from api_schema.roster import SledRequest
from service.translate.read import defaults, quantities, words
from service.translate.read.defaults import PRACTICE
from service.translate.read.notes import Notes, pointer_to
from solver.problem import Person, Sled


def read_sleds(
    sleds: Sequence[SledRequest] | None, people: Sequence[Person], notes: Notes
) -> tuple[Sled, ...]:
    """The sleds; left out, everybody with a sled cap hauls a generic one."""
    notes.point(("sleds",), "/sleds")
    if sleds is None:
        # An id that stands twice is told where it stands, and its sled is none that anybody sent.
        haulers = {person.person_id: person for person in people if person.caps.sled_g > 0}
        for person in haulers.values():
            notes.assume(
                "/sleds",
                f"Sled of {person.person_id}: tare, gross limit, volume.",
                f"{defaults.SLED_TARE.text}, {words.kilograms(_default_limit_g(person))}, "
                f"{defaults.SLED_VOLUME.text}",
                PRACTICE,
            )
        return tuple(
            Sled(
                sled_id=f"sled-{number}",
                hauler_id=person.person_id,
                tare_g=defaults.SLED_TARE.value,
                mass_limit_g=_default_limit_g(person),
                volume_ml=defaults.SLED_VOLUME.value,
            )
            for number, person in enumerate(haulers.values(), start=1)
        )
    return tuple(_read_sled(sled, index, people, notes) for index, sled in enumerate(sleds))


def _default_limit_g(hauler: Person | None) -> int:
    return max(defaults.SLED_MASS_LIMIT.value, hauler.caps.sled_g if hauler else 0)


def _read_sled(sled: SledRequest, index: int, people: Sequence[Person], notes: Notes) -> Sled:
    pointer = pointer_to("sleds", index)
    notes.point(("sleds", index), pointer)
    if sled.tare is not None:
        tare_g = notes.mass_up(sled.tare, f"{pointer}/tare")
    else:
        tare_g = notes.default(f"{pointer}/tare", defaults.SLED_TARE)
    if sled.mass_limit is not None:
        limit_g = notes.mass_down(sled.mass_limit, f"{pointer}/mass_limit")
    else:
        hauler = next((p for p in people if p.person_id == sled.hauler), None)
        limit_g = _default_limit_g(hauler)
        limit = defaults.SLED_MASS_LIMIT
        notes.assume(
            f"{pointer}/mass_limit", limit.what, limit.in_words(limit_g), limit.source_words
        )
    if sled.volume is not None:
        volume_ml = quantities.whole_down(sled.volume)
    else:
        volume_ml = notes.default(f"{pointer}/volume", defaults.SLED_VOLUME)
    share_percent = defaults.SECOND_SHARE.value
    if sled.second_share is not None:
        share_percent = notes.within(
            quantities.whole_down(sled.second_share),
            f"{pointer}/second_share",
            least=1,
            most=99,
            unit="%",
        )
    elif sled.second_hauler is not None:
        notes.default(f"{pointer}/second_share", defaults.SECOND_SHARE)
    return Sled(
        sled_id=sled.sled_id,
        hauler_id=sled.hauler,
        tare_g=tare_g,
        mass_limit_g=limit_g,
        volume_ml=volume_ml,
        second_hauler_id=sled.second_hauler,
        second_share_percent=share_percent,
        last_day=sled.last_day,
    )
