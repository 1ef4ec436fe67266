"""The header of a sheet: which row it is, which field each column holds, in which unit."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from api_schema.quantities import Dimension
from service.errors import Fault
from service.files.read import limits
from service.files.read.cells import Row, Sheet
from service.files.read.columns import Column, FileForm, any_unit, folded, unit_of
from service.files.read.places import cell_fault, file_fault

_MOST_WORDS_OF_A_UNIT = 2


@dataclass(frozen=True, slots=True)
class Named:
    """What a header cell says: its column, its unit if it has one, and a unit that does not fit."""

    column: Column
    unit: str | None = None
    wrong_unit: str | None = None


@dataclass(frozen=True, slots=True)
class MappedColumn:
    """A column of a sheet, counted from 0, with its header as it is written, field and unit."""

    index: int
    header: str
    column: Column
    unit: str | None


@dataclass(frozen=True, slots=True)
class Header:
    """The header row of a sheet, the columns that are read, and the names of those that are not."""

    row: Row
    mapped: tuple[MappedColumn, ...]
    not_read: tuple[str, ...]

    def of(self, field: str) -> MappedColumn | None:
        """The column of a field."""
        return next((m for m in self.mapped if m.column.field == field), None)


def named(header: str, form: FileForm) -> Named | None:
    """The field that a header names, alone or followed by a unit: "Mass (kg)", "mass_kg"."""
    words = folded(header).split()
    column = form.column_of(" ".join(words))
    if column is not None:
        return Named(column)
    for count in range(1, _MOST_WORDS_OF_A_UNIT + 1):
        name, unit_word = " ".join(words[:-count]), " ".join(words[-count:])
        column = form.column_of(name.removesuffix(" in"))
        if column is not None and isinstance(column.kind, Dimension):
            unit = unit_of(unit_word, column.kind)
            if unit is not None:
                return Named(column, unit)
            if any_unit(unit_word) is not None:
                return Named(column, wrong_unit=unit_word)
    return None


def known_names(cells: Sequence[str], form: FileForm) -> int:
    """How many cells of a line name a field, each field once."""
    found = {n.column.field for cell in cells if (n := named(cell, form)) is not None}
    return len(found)


def best_header(sheet: Sheet, form: FileForm) -> tuple[int, Row | None]:
    """The row near the top that names most fields, and how many; None where no row names any."""
    best: tuple[int, Row | None] = (0, None)
    for row in sheet.rows[: limits.HEADER_ROWS]:
        count = known_names([cell.text for cell in row.cells], form)
        if count > best[0]:
            best = (count, row)
    return best


def read_header(sheet: Sheet, row: Row, form: FileForm, faults: list[Fault]) -> Header:
    """The columns of a header row; each field that is there twice or lacks is a fault."""
    mapped: list[MappedColumn] = []
    not_read: list[str] = []
    for index, cell in enumerate(row.cells):
        if cell.kind == "blank":
            continue
        found = named(cell.text, form)
        if found is None:
            not_read.append(cell.text)
            continue
        first = next((m for m in mapped if m.column is found.column), None)
        if first is not None:
            detail = f"This is a second column for {found.column.field}. Remove one of the two."
            faults.append(cell_fault(sheet, row.number, (index, cell.text), "doubled", detail))
        elif found.wrong_unit is not None:
            assert isinstance(found.column.kind, Dimension)  # noqa: S101 - only those have units
            detail = f"{found.column.kind.with_article} is not in this unit."
            faults.append(cell_fault(sheet, row.number, (index, cell.text), "wrong_unit", detail))
        else:
            mapped.append(MappedColumn(index, cell.text, found.column, found.unit))
    there = {m.column.field for m in mapped}
    faults.extend(_missing(sheet, form, there))
    return Header(row, tuple(mapped), tuple(not_read))


def _missing(sheet: Sheet, form: FileForm, there: set[str]) -> Iterator[Fault]:
    for column in form.columns:
        if column.required and column.field not in there:
            names = ", ".join(column.names[:4])
            detail = f"There is no column for {column.field}. Names that are known: {names}."
            yield file_fault(sheet.file, "missing_column", detail, sheet=sheet.name)
