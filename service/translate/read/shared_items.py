"""Shared items of a request: whole, in parts, and those left lower down."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from api_schema.gear import ItemRequest
from service.translate.read.item_size import modes_in_use, need_of, volume_ml
from service.translate.read.item_use import ItemUse, read_use
from service.translate.read.notes import Notes
from solver.problem import Item


@dataclass(frozen=True, slots=True)
class _Piece:
    """One thing that an item consists of: the whole of it, or a part."""

    suffix: str
    name: str
    mass_g: int
    volume_ml: int


def shared_items(item: ItemRequest, pointer: str, notes: Notes) -> Iterator[Item]:
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
            yield Item(
                item_id=item.item_id + piece.suffix + where_suffix,
                mass_g=piece.mass_g,
                volume_ml=piece.volume_ml,
                need=need_of(item, up_to),
                count=count,
                rope_team_id=item.rope_team,
                in_use_on=modes_in_use(item),
                outside=item.outside,
                apart_kind=item.apart,
                name=f"{piece.name} (for {up_to})" if where_suffix and piece.name else piece.name,
                keeper_id=item.keeper,
                **(use if number == 0 else ItemUse()),
            )


def _pieces(item: ItemRequest, pointer: str, notes: Notes) -> Iterator[_Piece]:
    name = item.name or ""
    if not item.parts:
        if item.mass is None:
            notes.fault(f"{pointer}/mass", "missing", "Give the mass of one, or its parts.")
            return
        mass_g = notes.mass_up(item.mass, f"{pointer}/mass")
        yield _Piece("", name, mass_g, volume_ml(item.volume, mass_g, pointer, notes))
        return
    total_g = 0
    for index, part in enumerate(item.parts):
        here = f"{pointer}/parts/{index}"
        mass_g = notes.mass_up(part.mass, f"{here}/mass")
        total_g += mass_g
        part_name = part.name or (f"{name}: {part.part_id}" if name else "")
        yield _Piece(
            f".{part.part_id}", part_name, mass_g, volume_ml(part.volume, mass_g, here, notes)
        )
    if item.mass is not None and notes.mass_up(item.mass, f"{pointer}/mass") != total_g:
        notes.fault(
            f"{pointer}/mass",
            "parts_differ_from_whole",
            f"The parts weigh {total_g} g together, the item does not. Correct one of them, or "
            "leave the mass of the item out.",
        )
