"""Text that a spreadsheet would run as a formula: how it is recognised, defused and read back.

Text is live if its first character that is not blank, control or format is one of = + - @, in
any width, or if it begins with a tab or a line feed, which some programs drop. An apostrophe in
front makes it plain text. Reading takes that apostrophe away by the same test, so that every text
comes back as it was. Numbers are never touched.
"""

from __future__ import annotations

import unicodedata

_SIGNS = frozenset("=+-@")
_DROPPED_AT_THE_START = ("\t", "\r", "\n")


def is_live(text: str) -> bool:
    """Whether a spreadsheet might run the text."""
    if text.startswith(_DROPPED_AT_THE_START):
        return True
    for character in text:
        if unicodedata.category(character)[0] not in "ZC":
            return unicodedata.normalize("NFKC", character)[0] in _SIGNS
    return False


def defused(text: str) -> str:
    """The text as a cell of a CSV file, with an apostrophe in front where it is needed."""
    return "'" + text if is_live(text.lstrip("'")) else text


def as_meant(cell: str) -> str:
    """The text of a cell of a CSV file that was defused, or of any other."""
    return cell[1:] if cell.startswith("'") and is_live(cell.lstrip("'")) else cell
