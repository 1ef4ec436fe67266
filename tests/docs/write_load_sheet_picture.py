"""Draws the load sheet of the README from rows that are stored under `tests/regression/`.

python -m tests.docs.write_load_sheet_picture
"""

from __future__ import annotations

import json
import textwrap
from pathlib import Path
from typing import Any

from service.pictures.svg import Picture, element, text

ROOT = Path(__file__).parents[2]
ROWS = ROOT / "tests" / "regression" / "load_sheet_of_a_day.json"
PICTURE = ROOT / "examples" / "load-sheet.svg"
_WIDTH, _EDGE, _LINE = 820.0, 24.0, 17.0
_LEFT = (0.0, 62.0, 118.0, 174.0, 226.0, 458.0, 690.0)
"""Where each column begins."""
_CHARACTERS = (8, 6, 6, 6, 33, 33, 10)
_NUMBERS = (1, 2, 3)


def load_sheet_picture(sheet: dict[str, Any]) -> str:
    """The sheet of a day as SVG: heading, way, and a row for each person."""
    parts = [
        text((_EDGE, 44), sheet["heading"], bold=True),
        text((_EDGE, 66), sheet["way"]),
        text((_EDGE, 94), sheet["caption"], bold=True),
    ]
    y = 104.0
    for index, row in enumerate([sheet["columns"], *sheet["rows"]]):
        y = _row(parts, row, y, bold=index == 0)
    parts.append(text((_EDGE, y + 30), sheet["foot"]))
    height = y + 48
    paper = element(
        "rect", x=0.5, y=0.5, width=_WIDTH - 1, height=height - 1, fill="#fff", stroke="#000"
    )
    finding = f"{sheet['rows'][0][0]} carries {sheet['rows'][0][1]} kg in the pack on this day."
    picture = Picture(
        "load-sheet", "A load sheet: who carries what on one day", finding, _WIDTH, height,
        paper + "".join(parts),
    )  # fmt: skip
    return picture.svg() + "\n"


def _row(parts: list[str], cells: list[str], top: float, *, bold: bool) -> float:
    """Draw a row with its frame; gives where the next one begins."""
    wrapped = [
        textwrap.wrap(cell, most) or [""] for cell, most in zip(cells, _CHARACTERS, strict=True)
    ]
    height = max(map(len, wrapped)) * _LINE + 8
    ends = (*_LEFT[1:], _WIDTH - 2 * _EDGE)
    for index, (lines, left, end) in enumerate(zip(wrapped, _LEFT, ends, strict=True)):
        parts.append(
            element(
                "rect", x=_EDGE + left, y=top, width=end - left, height=height,
                fill="none", stroke="#000",
            )
        )  # fmt: skip
        is_number = index in _NUMBERS
        x = _EDGE + (end - 5 if is_number else left + 5)
        parts += [
            text(
                (x, top + _LINE * (n + 1) - 1),
                line,
                bold=bold,
                anchor="end" if is_number else "start",
            )
            for n, line in enumerate(lines)
        ]
    return top + height


if __name__ == "__main__":
    drawn = load_sheet_picture(json.loads(ROWS.read_text(encoding="utf-8")))
    PICTURE.write_text(drawn, encoding="utf-8")
