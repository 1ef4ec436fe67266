"""A workbook's sheets as they are read: openpyxl in its quick reading mode, after the scan."""

from __future__ import annotations

import datetime as dt
import io
import warnings
from collections.abc import Iterator
from decimal import Decimal
from typing import Any

import openpyxl
from openpyxl.cell.cell import ERROR_CODES

from service.errors import RequestFaults
from service.files.read import limits
from service.files.read.cells import BLANK, Cell, Row, Sheet
from service.files.read.places import file_fault
from service.files.read.sheet_counts import RefusedError, hidden_by
from service.files.read.workbook_scan import ScannedSheet, scan_workbook

_DECIMALS = 6


def workbook_sheets(content: bytes, file: str) -> tuple[list[Sheet], list[str]]:
    """The visible sheets of a workbook, and the names of the hidden ones, which are not read."""
    scanned = scan_workbook(content, file)
    visible = [sheet for sheet in scanned if not sheet.hidden]
    try:
        values = dict(_rows_by_name(content, visible, data_only=True))
        formulas = [sheet for sheet in visible if sheet.has_formulas]
        written = dict(_rows_by_name(content, formulas, data_only=False)) if formulas else {}
        sheets = [
            Sheet(
                file,
                sheet.name,
                tuple(_rows(values[sheet.name], written.get(sheet.name))),
                merged=hidden_by(sheet.merges),
                exact_numbers=True,
            )
            for sheet in visible
            if sheet.name in values
        ]
    except RefusedError as error:
        raise RequestFaults((file_fault(file, error.code, str(error)),)) from None
    # What openpyxl makes of a damaged part is one of these, and nothing more precise.
    except (KeyError, ValueError, TypeError, AttributeError, IndexError, SyntaxError):
        detail = "The workbook is damaged. Open it in a spreadsheet and save it again."
        raise RequestFaults((file_fault(file, "not_a_workbook", detail),)) from None
    return sheets, [sheet.name for sheet in scanned if sheet.hidden]


def _rows_by_name(
    content: bytes, wanted: list[ScannedSheet], *, data_only: bool
) -> Iterator[tuple[str, list[tuple[Any, ...]]]]:
    with warnings.catch_warnings():
        # It warns of what it leaves out, such as drop-down lists, which is no matter here.
        warnings.simplefilter("ignore")
        book = openpyxl.load_workbook(
            io.BytesIO(content), read_only=True, data_only=data_only, keep_links=False
        )
        names = {sheet.name for sheet in wanted}
        for sheet in book.worksheets:
            if sheet.title in names:
                # What the file says of its own size may be wrong, and cells would be lost.
                sheet.reset_dimensions()
                yield sheet.title, list(sheet.iter_rows(values_only=True, max_row=limits.ROWS))
        book.close()


def _rows(values: list[tuple[Any, ...]], written: list[tuple[Any, ...]] | None) -> Iterator[Row]:
    for index, row in enumerate(values):
        formulas = written[index] if written is not None and index < len(written) else ()
        yield Row(
            index + 1,
            tuple(
                _cell(value, formulas[column] if column < len(formulas) else None)
                for column, value in enumerate(row)
            ),
        )


def _cell(value: Any, written: Any) -> Cell:  # noqa: ANN401 - whatever a spreadsheet holds
    match value:
        case None:
            return BLANK if written is None else Cell("uncomputed")
        case bool():
            return Cell("flag", "yes" if value else "no")
        case int():
            return Cell("number", str(value)) if abs(value) < 10**15 else Cell("error", "number")
        case float():
            return _number(value)
        case dt.date() | dt.time() | dt.timedelta():
            return Cell("date", str(value))
    text = str(value).strip()
    if text in ERROR_CODES:
        return Cell("error", text)
    return Cell("text", text[: limits.CELL_CHARACTERS + 1]) if text else BLANK


def _number(value: float) -> Cell:
    """A number with at most six decimals, which is what a request takes."""
    if value != value or abs(value) >= 10**15:  # noqa: PLR0124 - NaN alone differs from itself
        return Cell("error", "number")
    text = f"{round(Decimal(repr(value)), _DECIMALS):f}"
    return Cell("number", text.rstrip("0").rstrip(".") if "." in text else text)
