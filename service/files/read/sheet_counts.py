"""What is counted in a sheet's XML while it is unpacked: rows, columns, cells, merges, formulas."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from service.files.read import limits

_MOST_MERGES = 10_000
_REFERENCE = re.compile(r"([A-Z]{1,3})([0-9]{1,7})", re.ASCII)


class RefusedError(Exception):
    """A workbook that is not read, with the code of the fault and a message that says why."""

    def __init__(self, code: str, message: str) -> None:
        super().__init__(message)
        self.code = code


@dataclass(slots=True)
class SheetCounts:
    """The counts of one part; RefusedError as soon as one is over its limit."""

    cells_left: int
    cells: int = 0
    rows: int = 0
    formulas: int = 0
    merges: list[str] = field(default_factory=list)
    _row_cells: int = 0

    def begin(self, tag: str, given: dict[str, str]) -> None:
        """Count an element that begins."""
        match tag.rpartition(" ")[2]:
            case "row":
                self.rows += 1
                self._row_cells = 0
                _hold(max(self.rows, _number(given.get("r", ""))), limits.ROWS, "rows")
            case "c":
                self.cells += 1
                self._row_cells += 1
                _hold(self.cells, self.cells_left, "cells")
                column, row = where(given.get("r", ""))
                _hold(max(column, self._row_cells), limits.COLUMNS, "columns")
                _hold(row, limits.ROWS, "rows")
            case "f":
                self.formulas += 1
            case "mergeCell":
                _hold(len(self.merges) + 1, _MOST_MERGES, "merged cells")
                self.merges.append(given.get("ref", ""))


def where(reference: str) -> tuple[int, int]:
    """Column and row of a cell such as C7, both from 1; zeros for anything else."""
    found = _REFERENCE.fullmatch(reference)
    if found is None:
        return 0, 0
    column = 0
    for letter in found[1]:
        column = 26 * column + ord(letter) - ord("A") + 1
    return column, int(found[2])


def hidden_by(merges: tuple[str, ...]) -> frozenset[tuple[int, int]]:
    """The cells that merges hide, as (row from 1, column from 0), within the limits of a sheet."""
    hidden: set[tuple[int, int]] = set()
    for merge in merges:
        first, _, last = merge.partition(":")
        (left, top), (right, bottom) = where(first), where(last)
        if not left or not right:
            continue
        cells = {
            (row, column - 1)
            for row in range(top, min(bottom, limits.ROWS) + 1)
            for column in range(left, min(right, limits.COLUMNS) + 1)
        }
        hidden |= cells - {(top, left - 1)}
        _hold(len(hidden), limits.CELLS, "merged cells")
    return frozenset(hidden)


def _number(text: str) -> int:
    return int(text) if text.isascii() and text.isdigit() and len(text) < 9 else 0


def _hold(count: int, most: int, what: str) -> None:
    if count > most:
        raise RefusedError("too_large", f"There are more {what} than a gear list has: over {most}.")
