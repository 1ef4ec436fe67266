"""A linear program written down column by column and row by row, then held as arrays.

Arrays are what HiGHS takes in one go; expressions of objects cost ten times as much to write.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int32]
Bools = npt.NDArray[np.bool_]

Term = tuple[int, float]
"""A column and its factor."""


@dataclass(frozen=True, slots=True)
class Program:
    """C columns and R rows with N entries: `row_lower` ≤ A·x ≤ `row_upper`, `lower` ≤ x ≤ `upper`.

    `whole` (C,) says which columns are whole numbers. Row r of A has the entries from `start[r]`
    up to `start[r + 1]`, each a column in `index` and a factor in `value`. Units are the
    caller's.
    """

    lower: Floats
    upper: Floats
    whole: Bools
    row_lower: Floats
    row_upper: Floats
    start: Ints
    index: Ints
    value: Floats

    @property
    def columns(self) -> int:
        """The number of columns."""
        return len(self.lower)

    @property
    def rows(self) -> int:
        """The number of rows."""
        return len(self.row_lower)


@dataclass(slots=True)
class Writer:
    """A program in the making; `columns` and `rows` count what is written so far."""

    _lower: list[float] = field(default_factory=list)
    _upper: list[float] = field(default_factory=list)
    _whole: list[bool] = field(default_factory=list)
    _row_lower: list[float] = field(default_factory=list)
    _row_upper: list[float] = field(default_factory=list)
    _start: list[int] = field(default_factory=lambda: [0])
    _index: list[int] = field(default_factory=list)
    _value: list[float] = field(default_factory=list)

    def column(self, upper: float = math.inf, *, lower: float = 0.0, whole: bool = False) -> int:
        """A new column; gives its number."""
        self._lower.append(lower)
        self._upper.append(upper)
        self._whole.append(whole)
        return len(self._lower) - 1

    def row(
        self, terms: Iterable[Term], *, lower: float = -math.inf, upper: float = math.inf
    ) -> None:
        """A new row; no column may be named twice in it."""
        for column, factor in terms:
            self._index.append(column)
            self._value.append(factor)
        self._start.append(len(self._index))
        self._row_lower.append(lower)
        self._row_upper.append(upper)

    def program(self) -> Program:
        """All that was written, as arrays."""
        return Program(
            lower=np.array(self._lower, dtype=np.float64),
            upper=np.array(self._upper, dtype=np.float64),
            whole=np.array(self._whole, dtype=bool),
            row_lower=np.array(self._row_lower, dtype=np.float64),
            row_upper=np.array(self._row_upper, dtype=np.float64),
            start=np.array(self._start, dtype=np.int32),
            index=np.array(self._index, dtype=np.int32),
            value=np.array(self._value, dtype=np.float64),
        )
