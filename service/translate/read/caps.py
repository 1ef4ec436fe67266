"""What a person may carry, read onto the grid: caps and limits round down."""

from __future__ import annotations

from api_schema.roster import PackCapsRequest, PersonRequest
from service.translate.read import defaults, quantities, words
from service.translate.read.notes import LARGEST_MASS_G, Notes, pointer_to
from solver.problem import Caps, Direction, LegMode


def read_load_limit_g(person: PersonRequest, pointer: str, notes: Notes) -> int | None:
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


def read_caps(person: PersonRequest, index: int, notes: Notes) -> Caps:
    """The caps of a person; a hauler without a cap on both together gets a generic one."""
    pointer = pointer_to("roster", index)
    pack_g = notes.mass_down(person.pack_cap, f"{pointer}/pack_cap")
    sled_g = 0
    if person.sled_cap is not None:
        sled_g = notes.mass_down(person.sled_cap, f"{pointer}/sled_cap")
    if person.total_cap is not None:
        total_g: int | None = notes.mass_down(person.total_cap, f"{pointer}/total_cap")
    elif sled_g:
        largest = defaults.LARGEST_TOTAL_CAP
        total_g = min(pack_g + sled_g, largest.value)
        notes.assume(
            f"{pointer}/total_cap",
            f"{largest.what[:-1]}: both caps, and never over {largest.text}.",
            words.kilograms(total_g),
            largest.source,
        )
    else:
        total_g = None
    return Caps(pack_g, sled_g, total_g, _read_pack_caps(person.pack_caps, pack_g, index, notes))


def _read_pack_caps(
    caps: PackCapsRequest, pack_g: int, index: int, notes: Notes
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
            read.append((mode, direction, _cap_g(text, pack_g, pointer, notes)))
    return tuple(read)


def _cap_g(text: str, pack_g: int, pointer: str, notes: Notes) -> int:
    """A cap by mode [g], given as a mass or as a share of the pack cap."""
    if not text.endswith("%"):
        return notes.mass_down(text, pointer)
    return min(quantities.share_down(text, pack_g), LARGEST_MASS_G)
