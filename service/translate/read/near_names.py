"""Which known name a caller may have meant by one that nobody knows."""

from __future__ import annotations

import re
from collections.abc import Iterable
from difflib import get_close_matches

LONGEST_NAME = 64
"""Longer names are not compared; no field and no id is longer."""

MOST_LISTED = 12


def near_names(given: str, known: Iterable[str]) -> list[str]:
    """Up to three known names that look like the given one, the nearest first.

    One that differs in capitals, hyphens and the like only is the one.
    """
    if len(given) > LONGEST_NAME:
        return []
    names = sorted(set(known))
    same = [name for name in names if _letters(name) == _letters(given)]
    return same or get_close_matches(given, names, n=3)


def did_you_mean(given: str, known: Iterable[str]) -> str:
    """A question with the near names and a space behind it, empty where there are none."""
    near = near_names(given, known)
    return f"Did you mean {' or '.join(near)}? " if near else ""


def unknown_id_words(what: str, given: str, known: Iterable[str], *, advised: bool = True) -> str:
    """There is no such id; which one may be meant, and which there are, the first dozen."""
    there = list(dict.fromkeys(known))
    listed = ", ".join(there[:MOST_LISTED]) or "none"
    more = f" and {len(there) - MOST_LISTED} more" if len(there) > MOST_LISTED else ""
    hint = did_you_mean(given, there) if advised else ""
    return f"There is no {what} {given}. {hint}Known are: {listed}{more}."


def _letters(name: str) -> str:
    return re.sub(r"[^a-z0-9]", "", name.lower())
