"""What items of a request are good for: purposes, and the figures that belong to each."""

from __future__ import annotations

from dataclasses import dataclass, replace

from api_schema.gear import PersonalItemRequest
from service.translate.read import quantities
from service.translate.read.notes import Notes
from solver.problem import Item, Purpose

LONGEST_ITEM_MM = 30_000


@dataclass(frozen=True, slots=True)
class ItemUse:
    """What an item is good for, as the rules ask for it."""

    purpose: Purpose | None
    shelter_places: int
    communicator_kind: str | None
    capacity_ml: int | None
    needed_below_c: float | None
    spoils_below_c: float | None
    length_mm: int | None


_NONE = ItemUse(None, 0, None, None, None, None, None)

_FOR_ONE_PURPOSE = {
    "shelter_places": Purpose.SHELTER,
    "communicator_kind": Purpose.COMMUNICATOR,
    "capacity": Purpose.HUMAN_WASTE_CONTAINER,
    "needed_below": Purpose.COLD_CLOTHING,
}
"""Fields that say nothing of an item of another purpose, and would be passed over in silence."""


def read_use(item: PersonalItemRequest, pointer: str, notes: Notes) -> ItemUse:
    """The use of an item, with a fault for what says nothing of an item of its purpose."""
    for field, purpose in _FOR_ONE_PURPOSE.items():
        if getattr(item, field) is not None and item.purpose != purpose.value:
            notes.fault(
                f"{pointer}/{field}",
                "other_purpose",
                f"This is for items with the purpose {purpose.value} only. Give the item that "
                "purpose, or leave this out.",
            )
    return ItemUse(
        purpose=None if item.purpose is None else Purpose(item.purpose),
        shelter_places=item.shelter_places or 0,
        communicator_kind=item.communicator_kind,
        capacity_ml=(
            None
            if item.capacity is None
            else notes.volume_down(item.capacity, f"{pointer}/capacity")
        ),
        needed_below_c=_temperature_c(item.needed_below),
        spoils_below_c=_temperature_c(item.spoils_below),
        length_mm=(
            None
            if item.length is None
            else notes.within(
                quantities.millimetres_up(item.length),
                f"{pointer}/length",
                least=1,
                most=LONGEST_ITEM_MM,
                unit="mm",
            )
        ),
    )


def _temperature_c(text: str | None) -> float | None:
    return None if text is None else quantities.temperature_c(text)


def with_use(item: Item, use: ItemUse | None) -> Item:
    """An item of that use; None for one that is good for nothing that a rule asks for."""
    if use is None or use == _NONE:
        return item
    return replace(
        item,
        purpose=use.purpose,
        shelter_places=use.shelter_places,
        communicator_kind=use.communicator_kind,
        capacity_ml=use.capacity_ml,
        needed_below_c=use.needed_below_c,
        spoils_below_c=use.spoils_below_c,
        length_mm=use.length_mm,
    )
