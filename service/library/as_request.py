"""The library as parts of a request, and as a list that the service reads."""

from __future__ import annotations

from typing import Any

from service.library.shared_gear import SHARED_GEAR, GenericItem
from service.reports.gear_list import gear_list_table
from service.reports.tables import Table
from service.translate.read.generic_kit import PERSONAL_KIT, DefaultItem

GENERIC_KIT_ID = "generic"


def gear_document() -> list[dict[str, Any]]:
    """The shared gear, for `gear` of a request."""
    return [_shared(item) for item in SHARED_GEAR]


def kit_document() -> list[dict[str, Any]]:
    """The generic personal kit, for `personal_kits` of a request."""
    return [_personal(item) for item in PERSONAL_KIT]


def library_table() -> Table:
    """Gear and kit as a gear list; a column says that nothing was weighed."""
    request = {
        "gear": gear_document(),
        "personal_kits": {GENERIC_KIT_ID: kit_document()},
        "roster": [],
    }
    return gear_list_table(request).with_last("weighed", "no")


def _shared(item: GenericItem) -> dict[str, Any]:
    given = {
        "purpose": item.purpose,
        "shelter_places": item.shelter_places,
        "communicator_kind": item.communicator_kind,
        "capacity": None if item.capacity_ml is None else f"{item.capacity_ml} mL",
    }
    return {
        "item_id": item.item_id,
        "name": item.name,
        "mass": f"{item.mass_g} g",
        "volume": f"{item.volume_ml} mL",
        "needed": item.needed,
        **{name: value for name, value in given.items() if value is not None},
    }


def _personal(item: DefaultItem) -> dict[str, Any]:
    return {
        "item_id": item.item_id,
        "name": item.name,
        "mass": f"{item.mass_g} g",
        "volume": f"{item.volume_ml} mL",
        "needed": item.kind.value,
        **({"in_use_on": [mode.value for mode in item.in_use_on]} if item.in_use_on else {}),
        **({"outside": True} if item.outside else {}),
        **({"purpose": item.purpose.value} if item.purpose is not None else {}),
    }
