"""Check characters for a text of digits and capital letters.

Source: ISO/IEC 7064:2003, "Information technology - Security techniques - Check character
systems", the pure systems MOD 37-2 and MOD 1271-36. Method and constants are from memory of the
standard; the tests compare them with its worked example and with an independent library.
"""

from __future__ import annotations

LETTERS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"
"""What a checked text may be of; each stands for its place in this row."""

CHECKS = LETTERS + "*"
"""What a check character of MOD 37-2 may be."""


def check_37_2(text: str) -> str:
    """The check character of a text by MOD 37-2; it may be `*`.

    It finds every change of one character and, in up to 36 characters, every two that changed
    places. ValueError for a character outside `LETTERS`.
    """
    rest = 0
    for letter in text:
        rest = (rest + _value(letter)) * 2 % 37
    return CHECKS[(1 - rest) % 37]


def check_1271_36(text: str) -> str:
    """The two check characters of a text by MOD 1271-36.

    ValueError for a character outside `LETTERS`.
    """
    rest = 0
    for letter in text:
        rest = (rest + _value(letter)) * 36 % 1271
    check = (1 - 36 * rest) % 1271
    return LETTERS[check // 36] + LETTERS[check % 36]


def _value(letter: str) -> int:
    value = LETTERS.find(letter)
    if value < 0 or len(letter) != 1:
        raise ValueError("only digits and capital letters have a check character")
    return value
