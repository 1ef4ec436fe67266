"""Units of the wire on the grid: their factors, and which way each figure is rounded."""

from decimal import Decimal

import pytest

from api_schema.quantities import DIMENSIONS
from service.translate.read.quantities import (
    BASE_OF,
    FACTORS,
    degrees,
    hours,
    seconds,
    temperature_c,
    whole_down,
    whole_nearest,
    whole_up,
)


@pytest.mark.parametrize(
    ("unit", "factor", "base"),
    [
        # NIST Special Publication 811 (2008), appendix B.8: exact figures, printed in bold there.
        ("lb", "453.59237", "g"),
        ("oz", "28.349523125", "g"),
        ("ft", "0.3048", "m"),
        ("mi", "1609.344", "m"),
        # NIST Handbook 44, appendix C: 1 US gallon is 3785.411784 mL, a quart a quarter of it and
        # a fluid ounce a hundred-and-twenty-eighth.
        ("qt", "946.352946", "mL"),
        ("floz", "29.5735295625", "mL"),
        ("kg", "1000", "g"),
        ("L", "1000", "mL"),
        ("km", "1000", "m"),
        ("h", "3600", "s"),
        ("min", "60", "s"),
        ("kg/L", "1000", "g/L"),
        ("g/mL", "1000", "g/L"),
        ("cm", "0.01", "m"),
        ("km/h", "1", "km/h"),
        # A mile is exactly 1.609344 km, and a metre in a second 3.6 km in an hour.
        ("mph", "1.609344", "km/h"),
        ("m/s", "3.6", "km/h"),
    ],
)
def test_factors(unit: str, factor: str, base: str) -> None:
    """Each unit is worth exactly what its definition says (from memory, unverified, the pages)."""
    assert FACTORS[unit] == Decimal(factor)
    assert BASE_OF[unit] == base


def test_every_unit_can_be_read() -> None:
    """Every unit that the wire takes has a factor, but for temperatures, which have an offset."""
    taken = {unit for dimension in DIMENSIONS for unit in dimension.units}
    assert taken - set(FACTORS) == {"degC", "degF"}


@pytest.mark.parametrize(
    ("text", "up", "down", "nearest"),
    [
        ("1 oz", 29, 28, 28),
        ("3 g", 3, 3, 3),
        ("3.2 kg", 3200, 3200, 3200),
        ("0.000001 g", 1, 0, 0),
        ("2.5 g", 3, 2, 3),
        ("0 kg", 0, 0, 0),
        ("999999999.999999 g", 1_000_000_000, 999_999_999, 1_000_000_000),
    ],
)
def test_rounding(text: str, up: int, down: int, nearest: int) -> None:
    """Needs go up, capacities down, other measures to the nearest; whole grams stay as they are."""
    assert (whole_up(text), whole_down(text), whole_nearest(text)) == (up, down, nearest)


@pytest.mark.parametrize(
    ("text", "celsius"),
    [("-15 degC", -15.0), ("32 degF", 0.0), ("-40 degF", -40.0), ("212 degF", 100.0)],
)
def test_temperatures(text: str, celsius: float) -> None:
    """Water freezes at 32 and boils at 212 degF, and the scales meet at -40."""
    assert temperature_c(text) == celsius


def test_angles_and_times() -> None:
    """Angles are degrees; times are hours or seconds, whichever unit they came in."""
    assert degrees("16.5 deg") == 16.5
    assert hours("90 min") == 1.5
    assert seconds("0.5 h") == 1800.0
