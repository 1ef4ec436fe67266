"""What items of a request are good for: purposes, and the figures that belong to each."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypedDict

from api_schema.gear import PersonalItemRequest
from service.translate.read import quantities
from service.translate.read.notes import Notes
from solver.problem import Purpose

LONGEST_ITEM_MM = 30_000


class ItemUse(TypedDict, total=False):
    """What an item is good for, as the rules ask for it: members of `Item`, only those given."""

    purpose: Purpose
    shelter_places: int
    communicator_kind: str
    capacity_ml: int
    needed_below_c: float
    spoils_below_c: float
    length_mm: int


_PURPOSES: Mapping[str, Purpose] = {purpose.value: purpose for purpose in Purpose}

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
    use = ItemUse()
    if item.purpose is not None:
        use["purpose"] = _PURPOSES[item.purpose]
    if item.shelter_places is not None:
        use["shelter_places"] = item.shelter_places
    if item.communicator_kind is not None:
        use["communicator_kind"] = item.communicator_kind
    if item.capacity is not None:
        use["capacity_ml"] = notes.volume_down(item.capacity, f"{pointer}/capacity")
    if item.needed_below is not None:
        use["needed_below_c"] = quantities.temperature_c(item.needed_below)
    if item.spoils_below is not None:
        use["spoils_below_c"] = quantities.temperature_c(item.spoils_below)
    if item.length is not None:
        use["length_mm"] = notes.within(
            quantities.millimetres_up(item.length),
            f"{pointer}/length",
            least=1,
            most=LONGEST_ITEM_MM,
            unit="mm",
        )
    return use
