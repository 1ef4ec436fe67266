"""A roster from a file: people with their caps, as a request takes them."""

from __future__ import annotations

from typing import Any

from api_schema.list_file_answer import RosterFileAnswer
from api_schema.roster import PersonRequest
from service.errors import Fault, RequestFaults
from service.files.read.assumed import Assumed
from service.files.read.choose_sheet import ChosenSheet, choose_sheet
from service.files.read.ids import id_from
from service.files.read.places import row_fault
from service.files.read.records import Record, checked, read_records
from service.files.read.roster_columns import ROSTER

_CAPS = "pack_caps."


def read_roster(content: bytes, file: str, sheet: str | None = None) -> RosterFileAnswer:
    """The roster of a CSV file or workbook, with what was assumed.

    Raises RequestFaults with every bad cell: its file, sheet, row, column and header.
    """
    faults: list[Fault] = []
    assumed = Assumed()
    chosen = choose_sheet(content, file, ROSTER, sheet, faults)
    records = read_records(chosen.sheet, chosen.header, faults)
    taken: set[str] = set()
    roster = []
    for record in records:
        document = _document(record, taken, chosen, assumed, faults)
        if document is None:
            continue
        person = checked(
            PersonRequest,
            document,
            sheet=chosen.sheet,
            row=record.row,
            header=chosen.header,
            faults=faults,
        )
        if person is not None:
            roster.append(person.model_dump(mode="json", by_alias=True, exclude_unset=True))
    if faults:
        raise RequestFaults(tuple(faults))
    return RosterFileAnswer(
        roster=roster, assumed=assumed.answers(), read=chosen.answer(len(records))
    )


def _document(
    record: Record, taken: set[str], chosen: ChosenSheet, assumed: Assumed, faults: list[Fault]
) -> dict[str, Any] | None:
    given: dict[str, Any] = {
        name: value for name, value in record.values.items() if not name.startswith(_CAPS)
    }
    caps = {
        name.removeprefix(_CAPS): value
        for name, value in record.values.items()
        if name.startswith(_CAPS)
    }
    if caps:
        given["pack_caps"] = caps
    if "person_id" not in given:
        if "name" not in given:
            detail = "The row has neither an id nor a name."
            faults.append(row_fault(chosen.sheet, record.row, "no_name", detail))
            return None
        given["person_id"] = id_from(str(given["name"]), taken, otherwise="person")
        assumed.note("The id is made from the name.", record.row)
    elif given["person_id"] in taken:
        detail = "Another row has this id."
        faults.append(row_fault(chosen.sheet, record.row, "doubled_id", detail))
        return None
    taken.add(given["person_id"])
    known_bad = any(f.place is not None and f.place.row == record.row for f in faults)
    return None if known_bad and "pack_cap" not in given else given
