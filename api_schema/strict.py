"""What every part of the wire has in common: strict objects, strict numbers, ids and texts."""

from __future__ import annotations

import datetime as dt
import math
import re
from typing import Annotated, TypeAlias

from pydantic import (
    AwareDatetime,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    PlainSerializer,
    StringConstraints,
    WithJsonSchema,
)
from pydantic_core import PydanticCustomError

ID_PATTERN = r"^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$"
UNIT_ID_PATTERN = r"^[A-Za-z0-9][A-Za-z0-9._/+-]{0,255}$"
DATE_PATTERN = r"^[0-9]{4}-[0-9]{2}-[0-9]{2}$"
CLOCK_PATTERN = r"^(?:[01][0-9]|2[0-3]):[0-5][0-9]$"
WORD_PATTERN = r"^[a-z]+(?:[ -][a-z]+)*$"
LONGEST_WORD = 40


class StrictModel(BaseModel):
    """An object of a request or an answer: no unknown fields, no NaN, no changes once read."""

    model_config = ConfigDict(
        extra="forbid",
        frozen=True,
        allow_inf_nan=False,
        validate_by_alias=True,
        validate_by_name=False,
        serialize_by_alias=True,
    )


def _plain_number(value: object) -> int | float:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise PydanticCustomError("not_a_number", "Write a plain JSON number, without quotes.")
    if isinstance(value, float) and not math.isfinite(value):
        raise PydanticCustomError("not_a_number", "Write a finite number.")
    return value


def _whole_number(value: object) -> int:
    number = _plain_number(value)
    if isinstance(number, float):
        if not number.is_integer():
            raise PydanticCustomError("not_whole", "Write a whole number.")
        return int(number)
    return number


_DATE = "Write a date as year-month-day, for example 2027-05-20."
_CLOCK = "Write a time of the clock as hours and minutes, for example 06:30."


def _iso_date(value: object) -> dt.date:
    if type(value) is dt.date:
        return value
    if not isinstance(value, str):
        raise PydanticCustomError("not_a_date", _DATE)
    if not re.fullmatch(DATE_PATTERN, value, re.ASCII):
        raise PydanticCustomError(
            "not_a_date", "{hint}{how}", {"hint": _about(value), "how": _DATE}
        )
    try:
        return dt.date.fromisoformat(value)
    except ValueError:
        hint = "There is no such day in the calendar. "
        raise PydanticCustomError(
            "not_a_date", "{hint}{how}", {"hint": hint, "how": _DATE}
        ) from None


def _about(text: str) -> str:
    """What is wrong with a text that is a date in another order, or more than a date."""
    if re.match(r"[0-9]{4}-[0-9]{2}-[0-9]{2}[T ]", text, re.ASCII):
        return "Leave out the time of day. "
    return "The year comes first. " if re.match(r"[0-9]{1,2}[./-]", text, re.ASCII) else ""


def _to_the_millisecond(moment: dt.datetime) -> str:
    return moment.astimezone(dt.UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


def _clock_time(value: object) -> str:
    if not isinstance(value, str) or not re.fullmatch(CLOCK_PATTERN, value, re.ASCII):
        wanted = isinstance(value, str) and re.match(r"[0-9]{1,2}:", value, re.ASCII)
        hint = "The hour has two digits, from 00 to 23. " if wanted else ""
        raise PydanticCustomError("not_a_time", "{hint}{how}", {"hint": hint, "how": _CLOCK})
    return value


def _plain_word(value: object) -> str:
    if (
        not isinstance(value, str)
        or len(value) > LONGEST_WORD
        or not re.fullmatch(WORD_PATTERN, value, re.ASCII)
    ):
        raise PydanticCustomError(
            "not_a_word",
            "Write one word or a few in small letters a to z, at most 40 characters, for "
            "example peanut or tree nut, and write the same thing the same way everywhere.",
        )
    return value


# JSON Schema's "integer" and "number" take 3.0 for 3 and refuse true and "3"; so do these.
# They stand last in an annotation, behind the limits, or else the schema loses the limits:
# Annotated[int, Field(ge=1, le=9), WHOLE].
WHOLE = BeforeValidator(_whole_number)
NUMBER = BeforeValidator(_plain_number)

# In answers: a number that stays as whole as it is.
Number: TypeAlias = Annotated[int | float, WithJsonSchema({"type": "number"})]

Flag: TypeAlias = Annotated[bool, Field(strict=True)]

Id: TypeAlias = Annotated[str, StringConstraints(pattern=ID_PATTERN)]
UnitId: TypeAlias = Annotated[str, StringConstraints(pattern=UNIT_ID_PATTERN)]
Name: TypeAlias = Annotated[str, StringConstraints(min_length=1, max_length=120)]
Reason: TypeAlias = Annotated[str, StringConstraints(min_length=3, max_length=300)]
Note: TypeAlias = Annotated[str, StringConstraints(max_length=500)]
IsoDate: TypeAlias = Annotated[
    dt.date,
    BeforeValidator(_iso_date),
    WithJsonSchema({"type": "string", "format": "date", "pattern": DATE_PATTERN}),
]
Moment: TypeAlias = Annotated[
    AwareDatetime,
    PlainSerializer(_to_the_millisecond, return_type=str, when_used="json"),
    WithJsonSchema({"type": "string", "format": "date-time"}),
]
ClockTime: TypeAlias = Annotated[
    str,
    BeforeValidator(_clock_time),
    WithJsonSchema({"type": "string", "pattern": CLOCK_PATTERN, "examples": ["06:30"]}),
]
Word: TypeAlias = Annotated[
    str,
    BeforeValidator(_plain_word),
    WithJsonSchema(
        {
            "type": "string",
            "pattern": WORD_PATTERN,
            "maxLength": LONGEST_WORD,
            "examples": ["peanut"],
        }
    ),
]
