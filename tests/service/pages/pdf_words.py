"""What stands where in a PDF: the words of each page with their boxes, by poppler's pdftotext."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path
from typing import NamedTuple

MARGIN_PT = 11 / 25.4 * 72
"""The margin left and right of the printed pages."""
_WORD = re.compile(
    r'<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">(.*?)</word>'
)
_PAGE = re.compile(r'<page width="([\d.]+)" height="([\d.]+)">(.*?)</page>', re.DOTALL)
_TOUCH_PT = 1.5


class Word(NamedTuple):
    """A word with its box [pt]."""

    left: float
    top: float
    right: float
    foot: float
    text: str


class Page(NamedTuple):
    """A page with its size [pt] and words."""

    width: float
    height: float
    words: list[Word]


def pages_of(pdf: Path) -> list[Page]:
    """All pages of a file."""
    told = subprocess.run(["pdftotext", "-bbox", pdf, "-"], check=True, capture_output=True)
    return [
        Page(
            float(width),
            float(height),
            [Word(*map(float, word[:4]), word[4]) for word in _WORD.findall(inside)],
        )
        for width, height, inside in _PAGE.findall(told.stdout.decode())
    ]


def beyond_the_margins(page: Page) -> list[str]:
    """Words that leave the printed area to the left or right, or the sheet itself."""
    return [
        word.text
        for word in page.words
        if word.left < MARGIN_PT - 1
        or word.right > page.width - MARGIN_PT + 1
        or word.foot > page.height
    ]


def overlapping(page: Page) -> list[tuple[str, str]]:
    """Pairs of words of which one runs over the other."""
    words = sorted(page.words, key=lambda word: word.top)
    found = []
    for index, one in enumerate(words):
        for other in words[index + 1 :]:
            if other.top > one.foot - _TOUCH_PT * 2:
                break
            across = min(one.right, other.right) - max(one.left, other.left)
            if across > _TOUCH_PT:
                found.append((one.text, other.text))
    return found
