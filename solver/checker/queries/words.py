"""Words for numbers, people and purposes that findings have in common."""

from __future__ import annotations

from collections.abc import Sequence

from solver.problem import Purpose

WORDS = {purpose: purpose.value.replace("_", " ") for purpose in Purpose}
"""Each purpose as people say it."""


def listed(words: Sequence[str]) -> str:
    """Words joined with commas and a last `and`."""
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def people_words(person_ids: Sequence[str]) -> str:
    """The first of some people, and how many more there are."""
    first, *more = person_ids
    return f"{first} and {len(more)} more" if more else first


def units_words(number: int, purpose: Purpose) -> str:
    """So many units of a purpose as people say it."""
    if purpose is Purpose.NAVIGATION:
        return f"{number} means of navigation"
    return counted(number, WORDS[purpose])


def counted(number: int, word: str) -> str:
    """A number with its noun, in the plural where it is not one."""
    return f"{number} {word}" if number == 1 else f"{number} {word}s"


def clock(hour: float) -> str:
    """An hour of the day as a clock shows it."""
    minutes = round(hour * 60)
    return f"{minutes // 60:02d}:{minutes % 60:02d}"
