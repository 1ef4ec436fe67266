"""Where in a file a fault is, and the fault with its place in front."""

from __future__ import annotations

import unicodedata

from service.errors import Fault, FilePlace
from service.files.read.cells import Sheet, column_letters

_LONGEST_NAME = 60


def shown(text: str) -> str:
    """A name from a file, as an answer shows it: short, in one line, without control characters."""
    plain = "".join(c if unicodedata.category(c)[0] != "C" else " " for c in text)
    line = " ".join(plain.split())
    return line if len(line) <= _LONGEST_NAME else line[: _LONGEST_NAME - 1] + "…"


def file_fault(file: str, code: str, detail: str, *, sheet: str | None = None) -> Fault:
    """A fault of a whole file or of a whole sheet."""
    place = FilePlace(file=shown(file), sheet=None if sheet is None else shown(sheet))
    return Fault("", code, f"{in_words(place)}: {detail}", place=place)


def row_fault(sheet: Sheet, row: int, code: str, detail: str) -> Fault:
    """A fault of a row."""
    place = FilePlace(shown(sheet.file), None if sheet.name is None else shown(sheet.name), row)
    return Fault("", code, f"{in_words(place)}: {detail}", place=place)


def cell_fault(sheet: Sheet, row: int, at: tuple[int, str], code: str, detail: str) -> Fault:
    """A fault of one cell; `at` is its column, counted from 0, and the header of that."""
    column, header = at
    place = FilePlace(
        file=shown(sheet.file),
        sheet=None if sheet.name is None else shown(sheet.name),
        row=row,
        column=column_letters(column),
        header=shown(header) or None,
    )
    return Fault("", code, f"{in_words(place)}: {detail}", place=place)


def in_words(place: FilePlace) -> str:
    """The place as people say it, for example: gear.xlsx, sheet Gear, row 7, column C (Mass)."""
    words = [place.file]
    if place.sheet is not None:
        words.append(f"sheet {place.sheet}")
    if place.row is not None:
        words.append(f"row {place.row}")
    if place.column is not None:
        header = f" ({place.header})" if place.header else ""
        words.append(f"column {place.column}{header}")
    return ", ".join(words)
