"""A plan as a workbook: real numbers, frozen headers, and no formula anywhere."""

from __future__ import annotations

import datetime as dt
import io
from collections.abc import Mapping

import xlsxwriter
from xlsxwriter.format import Format
from xlsxwriter.worksheet import Worksheet

from service.reports.live_text import is_live
from service.reports.tables import Cell, Table

_DECIMALS = 6
"""With at most fifteen digits a number comes back exactly; sixteen are written."""
_WIDEST = 60


def workbook_of(
    tables: Mapping[str, Table], *, title: str, about: str, created: dt.datetime
) -> bytes:
    """A workbook with a sheet for each table; the same tables give the same bytes.

    Only texts and numbers are written. A text that could run is marked as text for the
    spreadsheet. Numbers are rounded to six decimals, so that they come back exactly.
    """
    out = io.BytesIO()
    book = xlsxwriter.Workbook(out, {"in_memory": True, "constant_memory": False})
    book.set_properties(
        {"title": title, "comments": about, "created": created.replace(tzinfo=None)}
    )
    header = book.add_format({"bold": True, "bottom": 1, "text_wrap": True, "valign": "top"})
    as_text = book.add_format({"quote_prefix": True})
    for name, table in tables.items():
        sheet = book.add_worksheet(name)
        _write(sheet, table, header=header, as_text=as_text)
        _set_up_print(sheet, title=title, name=name)
    book.close()
    return out.getvalue()


def _write(sheet: Worksheet, table: Table, *, header: Format, as_text: Format) -> None:
    sheet.freeze_panes(1, 0)
    for column, name in enumerate(table.columns):
        sheet.write_string(0, column, name, header)
        cells = (row[column] for row in table.rows)
        longest = max((len(str(cell)) for cell in cells if cell is not None), default=0)
        sheet.set_column(column, column, min(_WIDEST, max(len(name), longest) + 2))
    for index, row in enumerate(table.rows, 1):
        for column, cell in enumerate(row):
            _write_cell(sheet, (index, column), cell, as_text)
    if table.rows:
        sheet.autofilter(0, 0, len(table.rows), len(table.columns) - 1)


def _write_cell(sheet: Worksheet, at: tuple[int, int], cell: Cell, as_text: Format) -> None:
    if isinstance(cell, str):
        sheet.write_string(*at, cell, as_text if is_live(cell) else None)
    elif cell is not None:
        sheet.write_number(*at, round(cell, _DECIMALS))


def _set_up_print(sheet: Worksheet, *, title: str, name: str) -> None:
    plain = title.replace("&", "&&")
    sheet.repeat_rows(0)
    sheet.set_landscape()
    sheet.set_paper(9)
    sheet.fit_to_pages(1, 0)
    sheet.set_footer(f"&L{plain[:100]}: {name}&RPage &P of &N")
