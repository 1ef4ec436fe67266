"""A gear list from a file: shared items, parts of items, and the kits of people."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any

from pydantic import BaseModel

from api_schema.gear import ItemRequest, PersonalItemRequest
from api_schema.list_file_answer import GearListFileAnswer
from service.errors import Fault, RequestFaults
from service.files.read.assumed import Assumed
from service.files.read.choose_sheet import ChosenSheet, choose_sheet
from service.files.read.columns import folded
from service.files.read.gear_columns import GEAR
from service.files.read.ids import id_from
from service.files.read.places import row_fault
from service.files.read.records import Record, checked, read_records
from service.translate.read.quantities import exactly

_WEIGHED = "The weighed mass is taken, not the one that was expected."
_NOT_WEIGHED = "The mass is typical, not weighed. Weigh the item."
_TOTALS = frozenset({"total", "totals", "subtotal", "sub total", "sum", "grand total"})
_PART_FIELDS = ("item_id", "name", "mass", "volume", "part_of", "weighed")


@dataclass(slots=True)
class _List:
    """What is read so far: documents of items with their rows, by owner; ids that are taken."""

    shared: list[tuple[int, dict[str, Any]]] = field(default_factory=list)
    owned: dict[str, list[tuple[int, dict[str, Any]]]] = field(default_factory=dict)
    parts: list[tuple[int, str, dict[str, Any]]] = field(default_factory=list)
    taken: dict[str, set[str]] = field(default_factory=dict)


def read_gear_list(content: bytes, file: str, sheet: str | None = None) -> GearListFileAnswer:
    """The gear list of a CSV file or workbook, with what was assumed.

    Raises RequestFaults with every bad cell: its file, sheet, row, column and header.
    """
    faults: list[Fault] = []
    assumed = Assumed()
    chosen = choose_sheet(content, file, GEAR, sheet, faults)
    records = read_records(chosen.sheet, chosen.header, faults)
    found = _List()
    for record in records:
        _take(record, found, chosen, assumed, faults)
    _add_parts(found, chosen, faults)
    gear = [
        document
        for row, given in found.shared
        if (document := _checked(ItemRequest, given, row, chosen, faults)) is not None
    ]
    kits = {
        owner: [
            document
            for row, given in items
            if (document := _checked(PersonalItemRequest, given, row, chosen, faults)) is not None
        ]
        for owner, items in found.owned.items()
    }
    if faults:
        raise RequestFaults(tuple(faults))
    return GearListFileAnswer(
        gear=gear,
        personal_kits=kits,
        total_kg=_total_kg([*gear, *(item for kit in kits.values() for item in kit)]),
        assumed=assumed.answers(),
        read=chosen.answer(len(records)),
    )


def _take(
    record: Record, found: _List, chosen: ChosenSheet, assumed: Assumed, faults: list[Fault]
) -> None:
    """One row: an item, or a part of one."""
    given: dict[str, Any] = dict(record.values)
    weigh_in = chosen.header.of("weighed_mass") is not None
    if folded(str(given.get("name", ""))) in _TOTALS:
        assumed.note("Rows that name a total are not read.", record.row)
        return
    owner = str(given.pop("owner", ""))
    taken = found.taken.setdefault(owner, set())
    if "item_id" not in given:
        if "name" not in given:
            detail = "The row has neither an id nor a name."
            faults.append(row_fault(chosen.sheet, record.row, "no_name", detail))
            return
        given["item_id"] = id_from(str(given["name"]), taken, otherwise="item")
        assumed.note("The id is made from the name.", record.row)
    elif given["item_id"] in taken and "part_of" not in given:
        detail = "Another row has this id. Write the number of items into the column count."
        faults.append(row_fault(chosen.sheet, record.row, "doubled_id", detail))
        return
    else:
        taken.add(given["item_id"])
    if "weighed_mass" in given:
        given["mass"] = given.pop("weighed_mass")
        assumed.note(_WEIGHED, record.row)
    elif given.pop("weighed", not weigh_in) is False:
        assumed.note(_NOT_WEIGHED, record.row)
    if "part_of" in given:
        _take_part(record.row, given, found, chosen, faults)
        return
    if "needed" not in given:
        given["needed"] = "every_night"
        assumed.note("The item is needed every night where its people sleep.", record.row)
    if owner:
        found.owned.setdefault(owner, []).append((record.row, given))
    else:
        found.shared.append((record.row, given))


def _take_part(
    row: int, given: dict[str, Any], found: _List, chosen: ChosenSheet, faults: list[Fault]
) -> None:
    wrong = [name for name in given if name not in _PART_FIELDS]
    if wrong:
        detail = f"A part has no {', '.join(wrong)}. Write it into the row of the item."
        faults.append(row_fault(chosen.sheet, row, "field_of_a_part", detail))
        return
    part: dict[str, Any] = {
        name: given[name] for name in ("name", "mass", "volume") if name in given
    }
    found.parts.append((row, given["part_of"], {"part_id": given["item_id"], **part}))


def _add_parts(found: _List, chosen: ChosenSheet, faults: list[Fault]) -> None:
    items = {given["item_id"]: given for _, given in found.shared}
    for row, item_id, part in found.parts:
        if item_id in items:
            items[item_id].setdefault("parts", []).append(part)
        else:
            detail = "There is no shared item with the id in part_of."
            faults.append(row_fault(chosen.sheet, row, "no_such_item", detail))


def _checked(
    model: type[BaseModel],
    given: dict[str, Any],
    row: int,
    chosen: ChosenSheet,
    faults: list[Fault],
) -> dict[str, Any] | None:
    if "mass" not in given and "parts" not in given and chosen.header.of("mass") is not None:
        known_bad = any(f.place is not None and f.place.row == row for f in faults)
        if not known_bad:
            detail = (
                "The row has no mass. Weigh the item and write its mass, or remove the row if it "
                "is a heading."
            )
            faults.append(row_fault(chosen.sheet, row, "no_mass", detail))
        return None
    read = checked(model, given, sheet=chosen.sheet, row=row, header=chosen.header, faults=faults)
    return None if read is None else read.model_dump(mode="json", by_alias=True, exclude_unset=True)


def _total_kg(items: list[dict[str, Any]]) -> float:
    """The mass of all items with their parts [kg]; a given mass goes before that of the parts."""
    total_g = Decimal(0)
    for item in items:
        masses = [item["mass"]] if "mass" in item else [p["mass"] for p in item.get("parts", ())]
        total_g += int(item.get("count", 1)) * sum((exactly(m) for m in masses), Decimal(0))
    return float(round(total_g / 1000, 3))
