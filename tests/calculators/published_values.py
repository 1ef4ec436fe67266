"""Reads the published figures that the calculators are tested against.

Each calculator has one file ``published/<function>.csv``. Its first lines start with ``#`` and
say the source, its status and where the tolerance comes from. Then come a header and the rows:
one column an argument, ``expected`` and ``tolerance``, and perhaps ``note``.
"""

from __future__ import annotations

import csv
from collections.abc import Callable
from pathlib import Path
from typing import Any

FOLDER = Path(__file__).parent / "published"
NOT_ARGUMENTS = frozenset({"expected", "tolerance", "note"})


def comments(function_name: str) -> str:
    """What the file says about its source, status and tolerance, without the ``#`` signs."""
    return "\n".join(line.lstrip("# ") for line in _lines(function_name) if line.startswith("#"))


def rows(function_name: str) -> list[dict[str, str]]:
    """The rows of a function's file as written, without the comment lines."""
    data = [line for line in _lines(function_name) if line.strip() and not line.startswith("#")]
    found = list(csv.DictReader(data, strict=True))
    if not found:
        raise ValueError(f"{function_name}.csv has no rows, so a test on it would prove nothing")
    return found


def arguments(row: dict[str, str]) -> dict[str, Any]:
    """A row's arguments: numbers where the cell is one, lists where it has ``;``, else text.

    An empty cell leaves the argument out, so that a default can be tested.
    """
    return {
        name: _value(cell)
        for name, cell in row.items()
        if name not in NOT_ARGUMENTS and cell.strip()
    }


def misses(function: Callable[..., float | str], row: dict[str, str]) -> str:
    """How a function's result misses a row's published figure; empty where it agrees.

    A tolerance of ``exact`` compares names; any other is the largest difference allowed.
    """
    result = function(**arguments(row))
    if row["tolerance"] == "exact":
        agrees = result == row["expected"]
    else:
        agrees = abs(float(result) - float(row["expected"])) <= float(row["tolerance"])
    return "" if agrees else f"gave {result}, published {row['expected']} +/- {row['tolerance']}"


def _lines(function_name: str) -> list[str]:
    return (FOLDER / f"{function_name}.csv").read_text(encoding="utf-8").splitlines()


def _value(cell: str) -> float | str | list[float]:
    if ";" in cell:
        return [float(part) for part in cell.split(";")]
    try:
        return float(cell)
    except ValueError:
        return cell.strip()
