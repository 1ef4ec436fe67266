"""A CSV file as a sheet: its encoding and its delimiter, without a guess.

UTF-8 with or without a byte-order mark, or UTF-16 with one. The delimiter is the one of four with
which most names of the header are known. Quotes follow RFC 4180, strictly.
"""

from __future__ import annotations

import codecs
import csv
import io
from collections.abc import Callable

from service.errors import Fault, RequestFaults
from service.files.read import limits
from service.files.read.cells import BLANK, Cell, Row, Sheet
from service.files.read.places import file_fault, row_fault
from service.reports.live_text import as_meant

_DELIMITERS = (",", ";", "\t", "|")
_HEADER_BYTES = 64 * 1024


def csv_sheet(content: bytes, file: str, known_names: Callable[[list[str]], int]) -> Sheet:
    """The sheet of a CSV file; `known_names` counts the names of a header that are known.

    Raises RequestFaults for text in another encoding, an open quote, or a file that is too large.
    """
    text = _decoded(content, file)
    delimiter = _delimiter(text, known_names)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    rows: list[Row] = []
    faults: list[Fault] = []
    sheet = Sheet(file, None, ())
    line = 1
    try:
        for cells in reader:
            if len(rows) >= limits.ROWS:
                raise _too_large(file, f"more than {limits.ROWS} rows")
            if len(cells) > limits.COLUMNS:
                raise _too_large(file, f"more than {limits.COLUMNS} columns in line {line}")
            if any(len(cell) > limits.CELL_CHARACTERS for cell in cells):
                what = f"A cell has more than {limits.CELL_CHARACTERS} characters."
                faults.append(row_fault(sheet, line, "cell_too_long", what))
            rows.append(Row(line, tuple(_cell(text) for text in cells)))
            line = reader.line_num + 1
    except csv.Error:
        detail = "A quote is not closed, or text follows a closed quote. Quote cells by RFC 4180."
        faults.append(row_fault(sheet, line, "bad_quotes", detail))
    if faults:
        raise RequestFaults(tuple(faults))
    return Sheet(file, None, tuple(rows))


def _cell(text: str) -> Cell:
    meant = as_meant(text).strip()
    return Cell("text", meant) if meant else BLANK


def _decoded(content: bytes, file: str) -> str:
    utf_16 = content.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE))
    try:
        text = content.decode("utf-16" if utf_16 else "utf-8-sig")
    except UnicodeDecodeError:
        raise RequestFaults(
            (file_fault(file, "bad_encoding", "The text is not UTF-8. Save it as CSV UTF-8."),)
        ) from None
    if "\0" in text:
        raise RequestFaults(
            (file_fault(file, "bad_encoding", "The file has NUL characters, so it is not CSV."),)
        )
    return text


def _delimiter(text: str, known_names: Callable[[list[str]], int]) -> str:
    """The delimiter with which some line near the top has the most known names; else the comma."""
    top = text[:_HEADER_BYTES].splitlines()[: limits.HEADER_ROWS]

    def known(delimiter: str) -> int:
        # Not strict: a line that a quoted line feed cuts is no header, and no fault here.
        lines = csv.reader(top, delimiter=delimiter)
        return max((known_names([c.strip() for c in cells]) for cells in lines), default=0)

    return max(_DELIMITERS, key=known)


def _too_large(file: str, what: str) -> RequestFaults:
    return RequestFaults(
        (file_fault(file, "too_large", f"The file has {what}, more than is taken. Split it."),)
    )
