"""Which decimal sign a file uses: found from all its numbers, never guessed for one of them."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Literal

DecimalSign = Literal[".", ","]

_NUMBER = re.compile(r"[-+\u2212]?[0-9]+(?:[.,][0-9]+)*", re.ASCII)
_POINT = re.compile(r"[0-9]{1,3}(?:,[0-9]{3})+\.[0-9]+|[0-9]*\.(?:[0-9]{1,2}|[0-9]{4,})|0\.[0-9]+")
_COMMA = re.compile(r"[0-9]{1,3}(?:\.[0-9]{3})+,[0-9]+|[0-9]*,(?:[0-9]{1,2}|[0-9]{4,})|0,[0-9]+")


class AmbiguousNumberError(ValueError):
    """A number such as 1,234 that is one thing with a decimal comma and another without."""


class MixedSignsError(ValueError):
    """A file with decimal points and decimal commas."""


def decimal_sign(texts: Iterable[str]) -> DecimalSign | None:
    """The sign that the numbers of these texts show, None where none does.

    1.5 and 1,234.5 show a point, 1,5 and 1.234,5 a comma; 1,234 and 1.234 show nothing.
    Raises MixedSignsError where both are shown.
    """
    shown: set[DecimalSign] = set()
    for text in texts:
        for number in _NUMBER.findall(text):
            plain = number.lstrip("-+\u2212")
            if _POINT.fullmatch(plain):
                shown.add(".")
            elif _COMMA.fullmatch(plain):
                shown.add(",")
    if len(shown) > 1:
        raise MixedSignsError
    return shown.pop() if shown else None


def plain_number(text: str, sign: DecimalSign | None) -> str | None:
    """The number with a decimal point and nothing else, None where it is no number.

    Raises AmbiguousNumberError for a comma or point that may be either: 1,234 and 1.234 where no
    number of the file shows which sign it uses, and what contradicts that sign.
    """
    number = text.replace("\u2212", "-").removeprefix("+")
    if re.fullmatch(r"-?[0-9]+", number, re.ASCII):
        return number
    if re.fullmatch(r"-?[0-9]*\.[0-9]+", number, re.ASCII) and sign == ".":
        return number.replace("-.", "-0.") if number[0] != "." else "0" + number
    if re.fullmatch(r"-?[0-9]*,[0-9]+", number, re.ASCII) and sign == ",":
        point = number.replace(",", ".")
        return "0" + point if point[0] == "." else point
    if re.fullmatch(r"-?[0-9]{1,3}(,[0-9]{3})+\.[0-9]+", number, re.ASCII) and sign != ",":
        return number.replace(",", "")
    if re.fullmatch(r"-?[0-9]{1,3}(\.[0-9]{3})+,[0-9]+", number, re.ASCII) and sign == ",":
        return number.replace(".", "").replace(",", ".")
    if re.fullmatch(r"-?[0-9]+([.,][0-9]+)+", number, re.ASCII):
        raise AmbiguousNumberError
    return None
