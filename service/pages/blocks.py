"""What a page is made of: sections with tables, lists, labels and pictures."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

ColumnKind = Literal["words", "short", "who", "number", "blank", "room"]
BLANK = "\u00a0"
"""The content of a cell that somebody writes into."""


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its name, whether it holds numbers, and whether somebody writes into it."""

    name: str
    kind: ColumnKind = "words"


@dataclass(frozen=True, slots=True)
class Table:
    """A table with its caption; every row has a cell for each column."""

    caption: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    kind: str = "table"


@dataclass(frozen=True, slots=True)
class Lines:
    """Short paragraphs, one below the other."""

    lines: tuple[str, ...]
    kind: str = "lines"


@dataclass(frozen=True, slots=True)
class Cards:
    """Labels to cut out."""

    cards: tuple[tuple[str, ...], ...]
    kind: str = "cards"


@dataclass(frozen=True, slots=True)
class Drawing:
    """A picture as SVG, with its title and its finding."""

    title: str
    finding: str
    svg: str
    kind: str = "drawing"


Block = Table | Lines | Cards | Drawing


@dataclass(frozen=True, slots=True)
class Section:
    """A part of the print-out that begins on a sheet of its own."""

    section_id: str
    title: str
    blocks: tuple[Block, ...]


_KINDS: Mapping[str, ColumnKind] = MappingProxyType(
    {"#": "number", "~": "short", "@": "who", "_": "blank", "=": "room"}
)


def table(caption: str, columns: Sequence[str], rows: Sequence[Sequence[str]]) -> Table:
    """A table whose columns say their kind by a sign.

    `#kg` holds numbers, `~Date` short words that stay in one line, `@Who` names, `_counted` is
    blank, `=Notes` is blank with room for sentences.
    """
    made = tuple(
        Column(name[1:], _KINDS[name[0]]) if name[0] in _KINDS else Column(name) for name in columns
    )
    blanks = [BLANK for column in made if column.kind in ("blank", "room")]
    filled = [
        row if len(row) == len(made) else (*row, *blanks[: len(made) - len(row)]) for row in rows
    ]
    return Table(caption, made, tuple(tuple(row) for row in filled))
