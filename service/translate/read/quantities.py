"""Quantities of a request on the solver's grid: whole grams and millilitres, rounded one way.

The units of the wire are a closed list, and what each is worth is exact by its definition; a test
holds it against a library of units, which would cost every start half a second. Numbers stay
decimal until they are rounded. Needs round up and capacities round down.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_UP, Decimal
from functools import lru_cache
from types import MappingProxyType
from typing import Final

_WORTH: Final = {
    "g": {"g": "1", "kg": "1000", "lb": "453.59237", "oz": "28.349523125"},
    "mL": {"mL": "1", "L": "1000", "floz": "29.5735295625", "qt": "946.352946"},
    "m": {"cm": "0.01", "m": "1", "km": "1000", "ft": "0.3048", "mi": "1609.344"},
    "deg": {"deg": "1"},
    "W": {"W": "1", "kW": "1000"},
    "s": {"s": "1", "min": "60", "h": "3600"},
    "g/L": {"kg/L": "1000", "g/mL": "1000"},
    "km/h": {"km/h": "1", "mph": "1.609344", "m/s": "3.6"},
    "%": {"%": "1"},
}

FACTORS: Final[Mapping[str, Decimal]] = MappingProxyType(
    {unit: Decimal(worth).normalize() for of in _WORTH.values() for unit, worth in of.items()}
)
"""What one of each unit is in g, mL, m, deg, W, s, g/L, km/h or per cent."""

BASE_OF: Final[Mapping[str, str]] = MappingProxyType(
    {unit: base for base, of in _WORTH.items() for unit in of}
)
"""The short name of the unit that each unit's factor counts in."""


_KNOWN: Final = 4096
"""So many texts are remembered with what they come to: kits and menus repeat theirs."""


def _in_base_unit(text: str) -> Decimal:
    number, _, unit = text.partition(" ")
    return Decimal(number) * FACTORS[unit]


def exactly(text: str) -> Decimal:
    """Any quantity in its base unit, a temperature in degrees Celsius, not rounded."""
    number, _, unit = text.partition(" ")
    if unit == "degC":
        return Decimal(number)
    if unit == "degF":
        return (Decimal(number) - 32) * 5 / 9
    return _in_base_unit(text)


@lru_cache(maxsize=_KNOWN)
def whole_up(text: str) -> int:
    """A need in its base unit (g, mL, m, g/L, per cent), rounded up."""
    return int(_in_base_unit(text).to_integral_value(ROUND_CEILING))


@lru_cache(maxsize=_KNOWN)
def whole_down(text: str) -> int:
    """A capacity in its base unit (g, mL, m, g/L, per cent), rounded down."""
    return int(_in_base_unit(text).to_integral_value(ROUND_FLOOR))


def whole_nearest(text: str) -> int:
    """A measure that is neither, in its base unit, to the nearest whole."""
    return int(_in_base_unit(text).to_integral_value(ROUND_HALF_UP))


def degrees(text: str) -> float:
    """An angle [deg]."""
    return float(_in_base_unit(text))


def hours(text: str) -> float:
    """A duration [h]."""
    return float(_in_base_unit(text) / FACTORS["h"])


def litres(text: str) -> float:
    """A volume that is only computed with, not packed [L]."""
    return float(_in_base_unit(text) / FACTORS["L"])


def grams(text: str) -> float:
    """A mass [g]."""
    return float(_in_base_unit(text))


def kilometres_per_hour(text: str) -> float:
    """A speed [km/h]."""
    return float(_in_base_unit(text))


def metres(text: str) -> float:
    """A length that is only computed with, not rounded [m]."""
    return float(_in_base_unit(text))


def millimetres_up(text: str) -> int:
    """A length that must find room [mm], rounded up."""
    return int((_in_base_unit(text) * 1000).to_integral_value(ROUND_CEILING))


def millimetres_down(text: str) -> int:
    """A length that there is room for [mm], rounded down."""
    return int((_in_base_unit(text) * 1000).to_integral_value(ROUND_FLOOR))


def percent_exactly(text: str) -> Decimal:
    """A percentage as it was written, so that shares can be added up without an error [%]."""
    return _in_base_unit(text)


def share_down(text: str, whole: int) -> int:
    """A share of a capacity, in the unit of the whole, rounded down."""
    return int((whole * _in_base_unit(text) / 100).to_integral_value(ROUND_FLOOR))


def watts(text: str) -> float:
    """A power [W]."""
    return float(_in_base_unit(text))


def seconds(text: str) -> float:
    """A duration [s]."""
    return float(_in_base_unit(text))


def temperature_c(text: str) -> float:
    """An absolute temperature [degrees Celsius]; its scale has an offset, so it has no factor."""
    return float(exactly(text))
