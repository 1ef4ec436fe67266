"""Quantities on the way in: a number, one space and a unit of a closed list, as one string.

Only the shape is settled here; what a unit is worth, the service looks up when it reads.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Annotated, TypeAlias

from pydantic import BeforeValidator, Discriminator, GetJsonSchemaHandler, Tag, WithJsonSchema
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, PydanticCustomError

NUMBER_PATTERN = r"(?:0|[1-9][0-9]{0,8})(?:\.[0-9]{1,6})?"
LONGEST_QUANTITY = 24


@dataclass(frozen=True, slots=True)
class Dimension:
    """One kind of quantity: the units taken, two examples, and whether it may be below zero."""

    name: str
    units: tuple[str, ...]
    examples: tuple[str, ...]
    signed: bool = False

    @property
    def pattern(self) -> str:
        """The regular expression that the whole string matches."""
        sign = "-?" if self.signed else ""
        return f"^{sign}{NUMBER_PATTERN} (?:{'|'.join(map(re.escape, self.units))})$"

    @property
    def with_article(self) -> str:
        """The name at the start of a sentence."""
        return f"{'An' if self.name[0] in 'aeiou' else 'A'} {self.name}"

    @property
    def how_to_write(self) -> str:
        """What to write, in a sentence."""
        return (
            "Write a number, a space and a unit, for example "
            + " or ".join(f'"{example}"' for example in self.examples)
            + f"; units taken: {', '.join(self.units)}."
        )


MASS = Dimension("mass", ("g", "kg", "lb", "oz"), ("25 kg", "55 lb"))
VOLUME = Dimension("volume", ("mL", "L", "floz", "qt"), ("85 L", "8 floz"))
LENGTH = Dimension("length", ("cm", "m", "km", "ft", "mi"), ("9 km", "14000 ft"))
ELEVATION = Dimension("elevation", ("m", "km", "ft", "mi"), ("2050 m", "14000 ft"), signed=True)
TEMPERATURE = Dimension("temperature", ("degC", "degF"), ("-15 degC", "5 degF"), signed=True)
LATITUDE = Dimension("latitude", ("deg",), ("63 deg", "-78 deg"), signed=True)
POWER = Dimension("power", ("W", "kW"), ("20 W", "1.1 kW"))
ANGLE = Dimension("angle", ("deg",), ("16 deg", "22.5 deg"))
DURATION = Dimension("duration", ("s", "min", "h"), ("4.5 h", "90 min"))
DENSITY = Dimension("density", ("kg/L", "g/mL"), ("0.7 kg/L", "0.725 g/mL"))
SPEED = Dimension("speed", ("km/h", "mph", "m/s"), ("30 km/h", "20 mph"))
PERCENT = Dimension("percentage", ("%",), ("12 %", "85 %"))

DIMENSIONS = (
    MASS,
    VOLUME,
    LENGTH,
    ELEVATION,
    TEMPERATURE,
    ANGLE,
    LATITUDE,
    POWER,
    DURATION,
    DENSITY,
    SPEED,
    PERCENT,
)

_BARE_NUMBER = re.compile(r"[+-]?[0-9]+(?:[.,][0-9]+)?", re.ASCII)

_MEANT = re.compile(r"(?P<number>[+-]?[0-9]+(?:[.,][0-9]+)*) *(?P<unit>[^0-9 .,].*)", re.ASCII)

_OTHER_NAMES = {
    "g": ("gr", "gram", "grams"),
    "kg": ("kgs", "kilo", "kilos", "kilogram", "kilograms"),
    "lb": ("lbs", "pound", "pounds"),
    "oz": ("ounce", "ounces"),
    "mL": ("millilitre", "millilitres", "milliliter", "milliliters", "cc"),
    "L": ("litre", "litres", "liter", "liters", "ltr"),
    "qt": ("quart", "quarts"),
    "floz": ("fl oz", "fl. oz", "fl. oz."),
    "m": ("metre", "metres", "meter", "meters"),
    "km": ("kms", "kilometre", "kilometres", "kilometer", "kilometers"),
    "ft": ("foot", "feet", "'"),
    "mi": ("mile", "miles"),
    "degC": ("c", "celsius"),
    "degF": ("f", "fahrenheit"),
    "deg": ("", "degree", "degrees"),
    "s": ("sec", "secs", "second", "seconds"),
    "min": ("mins", "minute", "minutes"),
    "h": ("hr", "hrs", "hour", "hours"),
    "km/h": ("kmh", "kph"),
    "mph": ("mi/h",),
    "%": ("percent", "per cent", "pct"),
}
"""Names of units that are not taken, by the unit to write for them."""


def _reader(dimension: Dimension) -> Callable[[object], str]:
    pattern = re.compile(dimension.pattern, re.ASCII)

    def read(value: object) -> str:
        if (
            isinstance(value, str)
            and len(value) <= LONGEST_QUANTITY
            and not value.endswith("\n")
            and pattern.match(value)
        ):
            return value
        raise _what_is_wrong(value, dimension)

    return read


def _what_is_wrong(value: object, dimension: Dimension) -> PydanticCustomError:
    """The error for a quantity that cannot be read; its text repeats nothing of it."""
    words = {
        "a_dimension": dimension.with_article,
        "how": dimension.how_to_write,
        "example": dimension.examples[0],
    }
    if isinstance(value, int | float) and not isinstance(value, bool):
        return PydanticCustomError("no_unit", "{a_dimension} needs a unit. {how}", words)
    if not isinstance(value, str):
        return PydanticCustomError("not_a_quantity", "{a_dimension} is a string. {how}", words)
    text = value[: LONGEST_QUANTITY + 1]
    hint = _hint(text, dimension)
    if hint:
        return PydanticCustomError("not_a_quantity", "{hint} {how}", words | {"hint": hint})
    if _BARE_NUMBER.fullmatch(text.strip()):
        return PydanticCustomError("no_unit", "{a_dimension} needs a unit. {how}", words)
    if text.startswith("-") and not dimension.signed and re.match(dimension.pattern, text[1:]):
        return PydanticCustomError("negative", "{a_dimension} cannot be negative. {how}", words)
    return PydanticCustomError(
        "not_a_quantity", "{a_dimension} cannot be read from this. {how}", words
    )


def _hint(text: str, dimension: Dimension) -> str:
    """What to change of a text that shows what was meant; empty where nothing is plain."""
    parts = _MEANT.fullmatch(text.strip())
    if parts is None:
        return ""
    if "," in parts["number"]:
        return "Write a decimal point where there is a comma, and no commas between thousands."
    unit = _meant_unit(parts["unit"], dimension)
    if unit is None or (parts["number"].startswith("-") and not dimension.signed):
        return ""
    if unit != parts["unit"]:
        return f"Write {unit} for this unit."
    return "Put one space between the number and the unit."


def _meant_unit(text: str, dimension: Dimension) -> str | None:
    """The unit that stands under another name or in other capitals."""
    name = text.lower().removeprefix("°")
    for unit in dimension.units:
        if name == unit.lower() or name in _OTHER_NAMES.get(unit, ()):
            return unit
    return None


def _schema(dimension: Dimension) -> WithJsonSchema:
    return WithJsonSchema(
        {
            "type": "string",
            "pattern": dimension.pattern,
            "maxLength": LONGEST_QUANTITY,
            "examples": list(dimension.examples),
        }
    )


@dataclass(frozen=True, slots=True)
class Range:
    """Least and most that a quantity may be, each written as in a request.

    It stands in the schema as `x-least` and `x-most`, since JSON Schema can bound no text; the
    service checks it. Of several the last in an annotation holds.
    """

    least: str
    most: str

    def __get_pydantic_json_schema__(
        self, core_schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> JsonSchemaValue:
        """The schema of the quantity with its range."""
        return handler(core_schema) | {"x-least": self.least, "x-most": self.most}


Mass: TypeAlias = Annotated[
    str, BeforeValidator(_reader(MASS)), _schema(MASS), Range("0 g", "1000 kg")
]
Volume: TypeAlias = Annotated[
    str, BeforeValidator(_reader(VOLUME)), _schema(VOLUME), Range("0 mL", "1000 L")
]
Length: TypeAlias = Annotated[
    str, BeforeValidator(_reader(LENGTH)), _schema(LENGTH), Range("0 m", "1000 km")
]
Elevation: TypeAlias = Annotated[
    str, BeforeValidator(_reader(ELEVATION)), _schema(ELEVATION), Range("-430 m", "8849 m")
]
Temperature: TypeAlias = Annotated[
    str, BeforeValidator(_reader(TEMPERATURE)), _schema(TEMPERATURE), Range("-90 degC", "60 degC")
]
Angle: TypeAlias = Annotated[
    str, BeforeValidator(_reader(ANGLE)), _schema(ANGLE), Range("0 deg", "90 deg")
]
Latitude: TypeAlias = Annotated[
    str, BeforeValidator(_reader(LATITUDE)), _schema(LATITUDE), Range("-90 deg", "90 deg")
]
Power: TypeAlias = Annotated[
    str, BeforeValidator(_reader(POWER)), _schema(POWER), Range("0 W", "5 kW")
]
Duration: TypeAlias = Annotated[
    str, BeforeValidator(_reader(DURATION)), _schema(DURATION), Range("0 s", "48 h")
]
Density: TypeAlias = Annotated[
    str, BeforeValidator(_reader(DENSITY)), _schema(DENSITY), Range("0.02 kg/L", "5 kg/L")
]
Speed: TypeAlias = Annotated[
    str, BeforeValidator(_reader(SPEED)), _schema(SPEED), Range("0 km/h", "400 km/h")
]
Percent: TypeAlias = Annotated[
    str, BeforeValidator(_reader(PERCENT)), _schema(PERCENT), Range("0 %", "100 %")
]

A_MASS = "a mass"
A_SHARE = "a share"
FORM_TAGS = frozenset({A_MASS, A_SHARE})


def _mass_or_share(value: object) -> str:
    return A_SHARE if isinstance(value, str) and value.endswith("%") else A_MASS


MassOrShare: TypeAlias = Annotated[
    Annotated[Mass, Tag(A_MASS)] | Annotated[Percent, Range("0 %", "200 %"), Tag(A_SHARE)],
    Discriminator(_mass_or_share),
]
"""A mass, or a share of another mass that the field names."""
