"""Tables read from a plan, as JSON rows and as CSV that a spreadsheet opens without harm."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from dataclasses import dataclass

from service.reports.live_text import defused

Cell = str | int | float | None

BYTE_ORDER_MARK = b"\xef\xbb\xbf"
"""Shows a spreadsheet that the text is UTF-8."""


@dataclass(frozen=True, slots=True)
class Table:
    """Columns whose names carry their units, and rows of as many cells."""

    columns: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]

    def as_rows(self) -> list[dict[str, Cell]]:
        """Each row as an object."""
        return [dict(zip(self.columns, row, strict=True)) for row in self.rows]

    def with_last(self, name: str, cell: Cell) -> Table:
        """The table with one more column, which says the same in every row."""
        return Table((*self.columns, name), tuple((*row, cell) for row in self.rows))

    def as_csv(self) -> bytes:
        """The table as CSV (RFC 4180, with a header line) in UTF-8, without a byte-order mark."""
        text = io.StringIO(newline="")
        writer = csv.writer(text)
        writer.writerow([_harmless(name) for name in self.columns])
        writer.writerows([_harmless(cell) for cell in row] for row in self.rows)
        return text.getvalue().encode()


def _harmless(cell: Cell) -> Cell:
    """The cell, defused if it is text; numbers stay numbers."""
    return defused(cell) if isinstance(cell, str) else cell


def table_of(columns: Sequence[str], rows: Sequence[dict[str, Cell]]) -> Table:
    """A table of these columns, with the cells that each row has under their names."""
    return Table(tuple(columns), tuple(tuple(row[name] for name in columns) for row in rows))
