"""Ids made from names, for rows that have none."""

from __future__ import annotations

import re
import unicodedata

_LONGEST = 56


def id_from(name: str, taken: set[str], *, otherwise: str) -> str:
    """A new id in small letters and hyphens, with a number behind it where it is taken already."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().casefold()
    stem = re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:_LONGEST].strip("-") or otherwise
    found, number = stem, 2
    while found in taken:
        found, number = f"{stem}-{number}", number + 1
    taken.add(found)
    return found
