"""One cell as the value that a request takes: quantities with their units, choices, flags, ids."""

from __future__ import annotations

import re
from decimal import Decimal

from api_schema.quantities import Dimension
from api_schema.strict import ID_PATTERN
from service.files.read.cells import Cell
from service.files.read.columns import Column, folded, unit_of
from service.files.read.decimals import AmbiguousNumberError, DecimalSign, plain_number
from service.files.read.headers import MappedColumn

Value = str | int | bool | list[str] | dict[str, int]

_FLAGS = {
    True: ("yes", "y", "true", "1", "x"),
    False: ("no", "n", "false", "0"),
}
_QUANTITY = re.compile(r"([-+\u2212]?[0-9][0-9.,]*|[.,][0-9]+)\s*(\S.*)?", re.ASCII | re.DOTALL)
_POUNDS = re.compile(r"([0-9]+)\s*lbs?\.?,?\s*([0-9]+(?:\.[0-9]+)?)\s*oz\.?", re.IGNORECASE)


class CellError(ValueError):
    """A cell that cannot be read, with a stable code and what to do."""

    def __init__(self, code: str, detail: str) -> None:
        super().__init__(detail)
        self.code = code


def read_cell(cell: Cell, mapped: MappedColumn, sign: DecimalSign | None) -> Value:
    """The value of a cell that is not blank; CellError where it has none."""
    _require_readable(cell, mapped.column)
    kind = mapped.column.kind
    if isinstance(kind, Dimension):
        return _quantity(cell, kind, mapped.unit, sign)
    text = cell.text
    match kind:
        case "whole":
            return _whole(text, sign)
        case "flag":
            return _flag(text)
        case "choice":
            return _choice(text, mapped.column)
        case "choices":
            return [_choice(part, mapped.column) for part in _parts(text)]
        case "words":
            return [part.casefold() for part in _parts(text)]
        case "counts":
            return dict(_count_at(part) for part in _parts(text))
        case "id":
            return _id(text)
    return text


def _require_readable(cell: Cell, column: Column) -> None:
    match cell.kind:
        case "error":
            raise CellError("error_value", "The cell has an error value. Correct its formula.")
        case "uncomputed":
            raise CellError(
                "uncomputed_formula",
                "The formula was never computed. Open the file in a spreadsheet and save it, or "
                "write the value.",
            )
        case "date":
            raise CellError(
                "date", "The cell is formatted as a date or time. Format it as a number or text."
            )
        case "number" if column.kind == "flag" and cell.text not in ("0", "1"):
            raise CellError("not_a_flag", "Write yes or no.")


def _quantity(cell: Cell, dimension: Dimension, unit: str | None, sign: DecimalSign | None) -> str:
    if cell.kind == "flag":
        raise CellError("not_a_quantity", f"{dimension.with_article} is a number.")
    pounds = _POUNDS.fullmatch(cell.text) if "lb" in dimension.units else None
    if pounds is not None:
        return f"{_plain(16 * Decimal(pounds[1]) + Decimal(pounds[2]))} oz"
    found = _QUANTITY.fullmatch(cell.text)
    if found is None:
        raise CellError(
            "not_a_quantity", f"{dimension.with_article} cannot be read. {dimension.how_to_write}"
        )
    if found[2] is not None:
        unit = unit_of(folded(found[2]), dimension)
        if unit is None:
            words = ", ".join(dimension.units)
            raise CellError("wrong_unit", f"This unit is not known here. Units taken: {words}.")
    if unit is None:
        raise CellError(
            "no_unit",
            f"{dimension.with_article} needs a unit, in the header or in the cell. Units taken: "
            f"{', '.join(dimension.units)}.",
        )
    exact = cell.text if cell.kind == "number" else _number(found[1], sign)
    number = Decimal(exact)
    if number < 0 and not dimension.signed:
        raise CellError("negative", f"{dimension.with_article} cannot be negative.")
    return f"{_plain(round(number, 6))} {unit}"


def _number(text: str, sign: DecimalSign | None) -> str:
    try:
        number = plain_number(text, sign)
    except AmbiguousNumberError:
        raise CellError(
            "ambiguous_number",
            "This is one number with a decimal comma and another with a decimal point. Write 1234 "
            "or 1.2340: without a sign for thousands, and not with three decimals.",
        ) from None
    if number is None:
        raise CellError("not_a_number", "This is not a number.")
    return number


def _plain(number: Decimal) -> str:
    text = f"{number:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def _whole(text: str, sign: DecimalSign | None) -> int:
    number = Decimal(_number(text, sign))
    if number != number.to_integral_value() or abs(number) > 10**6:
        raise CellError("not_whole", "Write a whole number.")
    return int(number)


def _flag(text: str) -> bool:
    for value, words in _FLAGS.items():
        if folded(text) in words:
            return value
    raise CellError("not_a_flag", "Write yes or no.")


def _choice(text: str, column: Column) -> str:
    for value, words in column.choices.items():
        if folded(text) in (folded(value), *words):
            return value
    raise CellError("not_a_choice", f"Write one of: {', '.join(column.choices)}.")


def _parts(text: str) -> list[str]:
    return [part.strip() for part in re.split(r"[;,\n]", text) if part.strip()]


def _count_at(text: str) -> tuple[str, int]:
    place, _, count = text.rpartition(":")
    if not count.strip().isdecimal() or len(count.strip()) > 4:
        raise CellError("not_counts", 'Write place and count, for example "camp-1: 6; camp-2: 3".')
    return _id(place.strip()), int(count)


def _id(text: str) -> str:
    if re.fullmatch(ID_PATTERN.strip("^$"), text, re.ASCII) is None:
        raise CellError(
            "bad_id",
            "An id has 1 to 64 characters: letters, digits, dot, hyphen and underscore, beginning "
            "with a letter or digit.",
        )
    return text
