"""Quantities of a request on the solver's grid: whole grams and millilitres, rounded one way.

Text of a request never reaches pint. The units of the wire are a closed list; what each is worth
is asked of pint's registry once, at import, and numbers stay decimal until they are rounded.
Needs round up and capacities round down.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_UP, Context, Decimal
from functools import lru_cache
from types import MappingProxyType
from typing import Final

import pint

_PINT_NAMES: Final = {
    "g": "gram",
    "kg": "kilogram",
    "lb": "pound",
    "oz": "ounce",
    "mL": "milliliter",
    "L": "liter",
    "floz": "US_fluid_ounce",
    "qt": "US_liquid_quart",
    "cm": "centimeter",
    "m": "meter",
    "km": "kilometer",
    "ft": "foot",
    "mi": "mile",
    "deg": "degree",
    "W": "watt",
    "kW": "kilowatt",
    "s": "second",
    "min": "minute",
    "h": "hour",
    "kg/L": "kilogram / liter",
    "g/mL": "gram / milliliter",
    "km/h": "kilometer / hour",
    "mph": "mile / hour",
    "m/s": "meter / second",
    "%": "percent",
}

_BASE_UNITS: Final = {
    "gram": ("g", "kg", "lb", "oz"),
    "milliliter": ("mL", "L", "floz", "qt"),
    "meter": ("cm", "m", "km", "ft", "mi"),
    "degree": ("deg",),
    "watt": ("W", "kW"),
    "second": ("s", "min", "h"),
    "gram / liter": ("kg/L", "g/mL"),
    "kilometer / hour": ("km/h", "mph", "m/s"),
    "percent": ("%",),
}


_SHORT_NAMES: Final = {
    "gram": "g",
    "milliliter": "mL",
    "meter": "m",
    "degree": "deg",
    "watt": "W",
    "second": "s",
    "gram / liter": "g/L",
    "kilometer / hour": "km/h",
    "percent": "%",
}


def _factors() -> dict[str, Decimal]:
    # Pint divides on the way to some units, which leaves an error in the 28th digit.
    exact = Context(prec=20)
    registry: pint.UnitRegistry[Decimal] = pint.UnitRegistry(non_int_type=Decimal)
    return {
        unit: exact.plus(
            registry.Quantity(Decimal(1), _PINT_NAMES[unit]).to(base).magnitude
        ).normalize(exact)
        for base, units in _BASE_UNITS.items()
        for unit in units
    }


FACTORS: Final[Mapping[str, Decimal]] = MappingProxyType(_factors())
"""What one of each unit is in g, mL, m, deg, s, g/L, km/h or per cent."""

BASE_OF: Final[Mapping[str, str]] = MappingProxyType(
    {unit: _SHORT_NAMES[base] for base, units in _BASE_UNITS.items() for unit in units}
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
