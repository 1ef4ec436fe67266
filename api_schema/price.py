"""Prices on the way in: a number, one space and the code of a currency, as one string."""

from __future__ import annotations

import re
from typing import Annotated, TypeAlias

from pydantic import BeforeValidator, WithJsonSchema
from pydantic_core import PydanticCustomError

PRICE_PATTERN = r"^(?:0|[1-9][0-9]{0,8})(?:\.[0-9]{1,2})? [A-Z]{3}$"

_HOW = (
    "Write a price as a number, one space and the three letters of its currency (ISO 4217), for "
    'example "12.50 EUR".'
)


def _price(value: object) -> str:
    if not isinstance(value, str) or not re.fullmatch(PRICE_PATTERN, value, re.ASCII):
        raise PydanticCustomError("not_a_price", _HOW)
    return value


Price: TypeAlias = Annotated[
    str,
    BeforeValidator(_price),
    WithJsonSchema({"type": "string", "pattern": PRICE_PATTERN, "examples": ["12.50 EUR"]}),
]
