"""What a column of a file may hold: a field of a request, its kind of value, its names."""

from __future__ import annotations

import dataclasses
import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final, Literal

from api_schema.quantities import Dimension

ValueKind = Literal["text", "id", "whole", "flag", "choice", "choices", "words", "counts"]


@dataclass(frozen=True, slots=True)
class Column:
    """A field that a column may hold; `names` are folded (see `folded`).

    A quantity has a dimension. A choice has the words that stand for each of its values.
    """

    field: str
    names: tuple[str, ...]
    kind: ValueKind | Dimension
    choices: Mapping[str, tuple[str, ...]] = dataclasses.field(default_factory=dict)
    required: bool = False


@dataclass(frozen=True, slots=True)
class FileForm:
    """All columns that one kind of file may have, and what such a file is called."""

    what: str
    columns: tuple[Column, ...]

    def column_of(self, name: str) -> Column | None:
        """The column with that folded name."""
        return next((column for column in self.columns if name in column.names), None)


UNITS: Final[Mapping[str, tuple[str, ...]]] = MappingProxyType(
    {
        "g": ("g", "gr", "gram", "grams", "gramme", "grammes"),
        "kg": ("kg", "kgs", "kilo", "kilos", "kilogram", "kilograms"),
        "lb": ("lb", "lbs", "pound", "pounds"),
        "oz": ("oz", "ounce", "ounces"),
        "mL": ("ml", "millilitre", "millilitres", "milliliter", "milliliters"),
        "L": ("l", "litre", "litres", "liter", "liters"),
        "floz": ("floz", "fl oz", "fluid ounce", "fluid ounces"),
        "qt": ("qt", "quart", "quarts"),
        "cm": ("cm", "centimetre", "centimetres", "centimeter", "centimeters"),
        "m": ("m", "metre", "metres", "meter", "meters"),
        "km": ("km", "kilometre", "kilometres", "kilometer", "kilometers"),
        "ft": ("ft", "foot", "feet"),
        "mi": ("mi", "mile", "miles"),
        "degC": ("degc", "c", "celsius", "deg c"),
        "degF": ("degf", "f", "fahrenheit", "deg f"),
    }
)
"""The units of requests with the words that stand for each in a file, folded."""


def folded(name: str) -> str:
    """A name without case, accents, punctuation and doubled blanks: "Mass (kg)" is "mass kg"."""
    plain = unicodedata.normalize("NFKD", name.replace("°", " deg "))
    letters = "".join(c for c in plain if not unicodedata.combining(c)).casefold()
    return " ".join(re.sub(r"[^0-9a-z]+", " ", letters).split())


def unit_of(word: str, dimension: Dimension) -> str | None:
    """The unit of the dimension that a folded word stands for."""
    return next((unit for unit in dimension.units if word in UNITS.get(unit, ())), None)


def any_unit(word: str) -> str | None:
    """The unit of whatever dimension that a folded word stands for."""
    return next((unit for unit, words in UNITS.items() if word in words), None)
