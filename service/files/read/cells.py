"""A sheet as it is read, whatever file it stood in: rows of cells, each of one kind."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

CellKind = Literal["blank", "text", "number", "flag", "date", "error", "uncomputed"]


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell: its kind, and its text; a number is written in digits with a decimal point."""

    kind: CellKind
    text: str = ""


BLANK = Cell("blank")


@dataclass(frozen=True, slots=True)
class Row:
    """A row with its number in the file, counted from 1."""

    number: int
    cells: tuple[Cell, ...]

    def cell(self, column: int) -> Cell:
        """The cell of a column, counted from 0; beyond the last one there are blanks."""
        return self.cells[column] if column < len(self.cells) else BLANK

    @property
    def is_blank(self) -> bool:
        """Whether no cell has anything in it."""
        return all(cell.kind == "blank" for cell in self.cells)


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet of a file; a CSV file is one sheet without a name."""

    file: str
    name: str | None
    rows: tuple[Row, ...]
    merged: frozenset[tuple[int, int]] = frozenset()
    """Cells that a merge hides, as (row number, column from 0)."""
    exact_numbers: bool = False
    """Whether numbers came as numbers; in text their decimal sign must be found out."""


def column_letters(column: int) -> str:
    """The name that a spreadsheet gives to a column, counted from 0: A to Z, then AA."""
    letters = ""
    number = column + 1
    while number:
        number, rest = divmod(number - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters
