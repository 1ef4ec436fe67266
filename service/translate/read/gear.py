"""Items of a request: shared ones, everybody's kits, parts, and those left lower down."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from api_schema.gear import ItemRequest, PersonalItemRequest
from api_schema.plan_request import PlanRequest
from api_schema.roster import PersonRequest
from service.translate.read import defaults
from service.translate.read.defaults import PRACTICE
from service.translate.read.item_use import read_use, with_use
from service.translate.read.notes import Notes, pointer_to
from solver.problem import Item, LegMode, Need, NeedKind


def read_gear(request: PlanRequest, notes: Notes) -> tuple[Item, ...]:
    """Shared items first, then each person's, in the order of the request."""
    gear: list[Item] = []
    notes.point(("gear",), "/gear")
    for index, item in enumerate(request.gear):
        pointer = pointer_to("gear", index)
        for variant in _shared_items(item, pointer, notes):
            notes.point(("gear", len(gear)), pointer)
            gear.append(variant)
    for index, person in enumerate(request.roster):
        for variant, pointer in _personal_items(request, person, index, notes):
            notes.point(("gear", len(gear)), pointer)
            gear.append(variant)
    notes.names.update({read.unit_id: read.name for read in gear if read.name})
    return tuple(gear)


def _volume_ml(text: str | None, mass_g: int, pointer: str, notes: Notes) -> int:
    if text is not None:
        return notes.volume_up(text, f"{pointer}/volume")
    volume_ml = mass_g * defaults.ITEM_ML_PER_G
    notes.assume(
        f"{pointer}/volume",
        "Packed volume, 3 L for each kilogram.",
        f"{volume_ml / 1000:g} L",
        PRACTICE,
    )
    return volume_ml


def _need(item: PersonalItemRequest, up_to: str | None) -> Need:
    return Need(NeedKind(item.needed), item.from_place, up_to, item.go_ahead, item.may_follow)


@dataclass(frozen=True, slots=True)
class _Piece:
    """One thing that an item consists of: the whole of it, or a part."""

    suffix: str
    name: str
    mass_g: int
    volume_ml: int


def _shared_items(item: ItemRequest, pointer: str, notes: Notes) -> Iterator[Item]:
    """An item as the solver knows it: one for each part and for each place where some stay."""
    pieces = tuple(_pieces(item, pointer, notes))
    left = sum(item.left_at.values())
    if left > item.count:
        notes.fault(
            f"{pointer}/left_at",
            "too_many_left",
            f"{left} are left on the way, but the count is {item.count}.",
        )
    use = read_use(item, pointer, notes)
    groups = [("", item.up_to, item.count - left)]
    groups += [(f".{place}", place, count) for place, count in item.left_at.items()]
    for where_suffix, up_to, count in groups:
        if count <= 0:
            continue
        for number, piece in enumerate(pieces):
            # Parts of one tent are one shelter: only the first counts as it.
            yield with_use(
                Item(
                    item_id=item.item_id + piece.suffix + where_suffix,
                    mass_g=piece.mass_g,
                    volume_ml=piece.volume_ml,
                    need=_need(item, up_to),
                    count=count,
                    rope_team_id=item.rope_team,
                    in_use_on=tuple(LegMode(mode) for mode in item.in_use_on),
                    outside=item.outside,
                    apart_kind=item.apart,
                    name=piece.name,
                ),
                use if number == 0 else None,
            )


def _pieces(item: ItemRequest, pointer: str, notes: Notes) -> Iterator[_Piece]:
    name = item.name or ""
    if not item.parts:
        if item.mass is None:
            notes.fault(f"{pointer}/mass", "missing", "Give the mass of one, or its parts.")
            return
        mass_g = notes.mass_up(item.mass, f"{pointer}/mass")
        yield _Piece("", name, mass_g, _volume_ml(item.volume, mass_g, pointer, notes))
        return
    total_g = 0
    for index, part in enumerate(item.parts):
        here = f"{pointer}/parts/{index}"
        mass_g = notes.mass_up(part.mass, f"{here}/mass")
        total_g += mass_g
        part_name = part.name or (f"{name}: {part.part_id}" if name else "")
        yield _Piece(
            f".{part.part_id}", part_name, mass_g, _volume_ml(part.volume, mass_g, here, notes)
        )
    if item.mass is not None and notes.mass_up(item.mass, f"{pointer}/mass") != total_g:
        notes.fault(
            f"{pointer}/mass",
            "parts_differ_from_whole",
            f"The parts weigh {total_g} g together, the item does not. Correct one of them, or "
            "leave the mass of the item out.",
        )


def _personal_items(
    request: PlanRequest, person: PersonRequest, index: int, notes: Notes
) -> Iterator[tuple[Item, str]]:
    """A person's kit and what comes on top, each with its address in the request."""
    pointer = pointer_to("roster", index, "personal_kit")
    kit = person.personal_kit
    if kit is None:
        notes.assume(
            pointer,
            "Personal kit: generic pieces for every night and every trip, with the pack.",
            f"{sum(item.mass_g for item in defaults.PERSONAL_KIT) / 1000:g} kg",
            PRACTICE,
        )
        yield from (
            (_default_item(item, person.person_id), pointer) for item in defaults.PERSONAL_KIT
        )
    elif isinstance(kit, list):
        yield from _owned(kit, person.person_id, pointer, notes)
    elif kit in request.personal_kits:
        kit_pointer = pointer_to("personal_kits", kit)
        yield from _owned(request.personal_kits[kit], person.person_id, kit_pointer, notes)
    else:
        known = ", ".join(request.personal_kits) or "none"
        notes.fault(pointer, "unknown_id", f"There is no personal kit {kit}. Known are: {known}.")
    extras = pointer_to("roster", index, "extra_items")
    yield from _owned(person.extra_items, person.person_id, extras, notes)


def _default_item(item: defaults.DefaultItem, owner_id: str) -> Item:
    return Item(
        item_id=item.item_id,
        mass_g=item.mass_g,
        volume_ml=item.volume_ml,
        need=Need(item.kind),
        owner_id=owner_id,
        in_use_on=item.in_use_on,
        outside=item.outside,
        name=item.name,
        purpose=item.purpose,
    )


def _owned(
    items: Sequence[PersonalItemRequest], owner_id: str, pointer: str, notes: Notes
) -> Iterator[tuple[Item, str]]:
    for index, item in enumerate(items):
        here = f"{pointer}/{index}"
        mass_g = notes.mass_up(item.mass, f"{here}/mass")
        read = Item(
            item_id=item.item_id,
            mass_g=mass_g,
            volume_ml=_volume_ml(item.volume, mass_g, here, notes),
            need=_need(item, item.up_to),
            count=item.count,
            owner_id=owner_id,
            in_use_on=tuple(LegMode(mode) for mode in item.in_use_on),
            outside=item.outside,
            name=item.name or "",
        )
        yield with_use(read, read_use(item, here, notes)), here
