"""The rows of a sheet as objects of a request, each bad cell a fault, all of them at once."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TypeVar

from pydantic import BaseModel, ValidationError

from api_schema.quantities import Dimension
from service.errors import Fault
from service.files.read.cells import Row, Sheet
from service.files.read.decimals import DecimalSign, MixedSignsError, decimal_sign
from service.files.read.headers import Header, MappedColumn
from service.files.read.places import cell_fault, file_fault, row_fault
from service.files.read.values import CellError, Value, read_cell
from service.translate.read.notes import Notes
from service.translate.read.ranges import note_out_of_range
from service.translate.read.wire_faults import wire_faults

Model = TypeVar("Model", bound=BaseModel)


@dataclass(frozen=True, slots=True)
class Record:
    """One row: its number in the file, and the values of its cells by field."""

    row: int
    values: dict[str, Value]


def read_records(sheet: Sheet, header: Header, faults: list[Fault]) -> list[Record]:
    """The rows below the header that are not blank; bad cells are added to the faults."""
    sign = _sign_of(sheet, header, faults)
    records = []
    for row in sheet.rows:
        if row.number > header.row.number and not row.is_blank:
            values = dict(_values(sheet, row, header, sign, faults))
            records.append(Record(row.number, values))
    return records


def _values(
    sheet: Sheet, row: Row, header: Header, sign: DecimalSign | None, faults: list[Fault]
) -> Iterator[tuple[str, Value]]:
    for mapped in header.mapped:
        cell = row.cell(mapped.index)
        if cell.kind == "blank":
            if (row.number, mapped.index) in sheet.merged:
                detail = (
                    "The cell is merged with one beside or above it. Unmerge the cells and write "
                    "the value into each row."
                )
                faults.append(_fault(sheet, row.number, mapped, "merged", detail))
            continue
        try:
            yield mapped.column.field, read_cell(cell, mapped, sign)
        except CellError as error:
            faults.append(_fault(sheet, row.number, mapped, error.code, str(error)))


def _sign_of(sheet: Sheet, header: Header, faults: list[Fault]) -> DecimalSign | None:
    """The decimal sign of the text cells that hold numbers."""
    numeric = [m for m in header.mapped if isinstance(m.column.kind, Dimension)]
    texts = (
        cell.text
        for row in sheet.rows
        if row.number > header.row.number
        for mapped in numeric
        if (cell := row.cell(mapped.index)).kind == "text"
    )
    try:
        return decimal_sign(texts)
    except MixedSignsError:
        detail = "The file has decimal points and decimal commas. Use one of them."
        faults.append(file_fault(sheet.file, "mixed_decimal_signs", detail, sheet=sheet.name))
        return "."


def checked(
    model: type[Model],
    document: dict[str, object],
    *,
    sheet: Sheet,
    row: int,
    header: Header,
    faults: list[Fault],
) -> Model | None:
    """The object of a request that a row gives; None, and faults at its cells, where it is none."""
    try:
        read = model.model_validate(document)
    except ValidationError as error:
        found = wire_faults(error, model)
    else:
        notes = Notes()
        note_out_of_range(read, notes)
        if not notes.faults:
            return read
        found = tuple(notes.faults)
    for fault in found:
        mapped = header.of(fault.pointer.split("/")[1]) if fault.pointer else None
        if mapped is None:
            field = fault.pointer.removeprefix("/")
            faults.append(row_fault(sheet, row, fault.code, f"{field}: {fault.detail}"))
        else:
            faults.append(_fault(sheet, row, mapped, fault.code, fault.detail))
    return None


def _fault(sheet: Sheet, row: int, mapped: MappedColumn, code: str, detail: str) -> Fault:
    return cell_fault(sheet, row, (mapped.index, mapped.header), code, detail)
