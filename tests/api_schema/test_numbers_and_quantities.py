"""What the wire takes as a number, an id, a date and a quantity, and that its schema says so."""

from typing import Annotated, Any

import pytest
from jsonschema import Draft202012Validator
from pydantic import TypeAdapter, ValidationError

from api_schema.price import Price
from api_schema.quantities import (
    DIMENSIONS,
    LONGEST_QUANTITY,
    MASS,
    TEMPERATURE,
    Elevation,
    Mass,
    Percent,
    Temperature,
)
from api_schema.strict import NUMBER, WHOLE, Flag, Id, IsoDate

Whole = Annotated[int, WHOLE]
Number = Annotated[float, NUMBER]


def accepted(kind: Any, value: object) -> bool:
    """Whether the reader takes a value; its published schema must take the same."""
    adapter = TypeAdapter(kind)
    try:
        adapter.validate_python(value)
        read = True
    except ValidationError:
        read = False
    assert Draft202012Validator(adapter.json_schema()).is_valid(value) is read
    return read


@pytest.mark.parametrize(
    ("value", "taken"),
    [(3, True), (3.0, True), (-2, True), (3.5, False), (True, False), ("3", False)],
)
def test_whole_numbers(value: object, taken: bool) -> None:
    """A whole number is what JSON Schema calls an integer: 3.0 is one, true and "3" are none."""
    assert accepted(Whole, value) is taken


@pytest.mark.parametrize(
    ("value", "taken"), [(3, True), (3.5, True), (True, False), ("3.5", False), (None, False)]
)
def test_numbers(value: object, taken: bool) -> None:
    """A number is a JSON number, neither true nor text."""
    assert accepted(Number, value) is taken


@pytest.mark.parametrize("value", [float("nan"), float("inf"), float("-inf")])
def test_numbers_are_finite(value: float) -> None:
    """NaN and the infinities are no numbers, whole or not."""
    for kind in (Whole, Number):
        with pytest.raises(ValidationError, match="finite"):
            TypeAdapter(kind).validate_python(value)


@pytest.mark.parametrize(("value", "taken"), [(True, True), (0, False), ("true", False)])
def test_flags(value: object, taken: bool) -> None:
    """A flag is true or false and nothing that looks like it."""
    assert accepted(Flag, value) is taken


@pytest.mark.parametrize(
    ("value", "taken"),
    [
        ("a", True),
        ("Camp-1.b_c", True),
        ("a" * 64, True),
        ("a" * 65, False),
        ("", False),
        ("-a", False),
        (".a", False),
        ("a b", False),
        ("a/b", False),
        ("ä", False),
        (3, False),
    ],
)
def test_ids(value: object, taken: bool) -> None:
    """An id has 1 to 64 letters, digits, dots, hyphens, underscores; the first is no sign."""
    assert accepted(Id, value) is taken


@pytest.mark.parametrize(
    ("value", "taken"),
    [
        ("2027-05-20", True),
        ("2028-02-29", True),
        ("20270520", False),
        ("2027-5-20", False),
        ("2027-05-20T00:00", False),
        (20270520, False),
    ],
)
def test_dates(value: object, taken: bool) -> None:
    """A date is year, month and day with hyphens."""
    assert accepted(IsoDate, value) is taken


def test_days_that_do_not_exist() -> None:
    """The 29th of February of 2027 is refused, which no pattern can say."""
    with pytest.raises(ValidationError):
        TypeAdapter(IsoDate).validate_python("2027-02-29")


@pytest.mark.parametrize(
    ("value", "taken"),
    [
        ("27 kg", True),
        ("0 g", True),
        ("0.5 oz", True),
        ("999999999 g", True),
        ("27.123456 lb", True),
        ("1000000000 g", False),
        ("27.1234567 lb", False),
        ("27kg", False),
        ("27  kg", False),
        (" 27 kg", False),
        ("27 kg ", False),
        ("+27 kg", False),
        ("-27 kg", False),
        ("027 kg", False),
        (".5 kg", False),
        ("5. kg", False),
        ("1e3 kg", False),
        ("1,5 kg", False),
        ("1_000 g", False),
        ("٣ kg", False),
        ("27 KG", False),
        ("27 L", False),
        ("27 kg*kg", False),
        ("9**9**9 kg", False),
        ("27", False),
        (27, False),
        (None, False),
    ],
)
def test_masses(value: object, taken: bool) -> None:
    """A mass is a number without tricks, one space, and a unit of the list."""
    assert accepted(Mass, value) is taken


@pytest.mark.parametrize(
    ("kind", "value", "taken"),
    [
        (Temperature, "-15 degC", True),
        (Temperature, "5 degF", True),
        (Temperature, "-15 C", False),
        (Temperature, "15 K", False),
        (Elevation, "-86 m", True),
        (Elevation, "14000 ft", True),
        (Percent, "12 %", True),
        (Percent, "12%", False),
        (Percent, "-1 %", False),
    ],
)
def test_other_dimensions(kind: Any, value: str, taken: bool) -> None:
    """Only temperature and elevation can be below zero; units are written as listed."""
    assert accepted(kind, value) is taken


def test_line_end_is_not_overlooked() -> None:
    """A newline after the unit is no part of a quantity, although "$" matches before it."""
    with pytest.raises(ValidationError):
        TypeAdapter(Mass).validate_python("27 kg\n")


@pytest.mark.parametrize("dimension", DIMENSIONS, ids=lambda d: d.name)
def test_examples_of_dimensions(dimension) -> None:
    """The examples that messages give can be sent as they are, and every unit can be used."""
    schema = {"type": "string", "pattern": dimension.pattern, "maxLength": LONGEST_QUANTITY}
    for text in (*dimension.examples, *(f"1 {unit}" for unit in dimension.units)):
        assert Draft202012Validator(schema).is_valid(text)


@pytest.mark.parametrize(
    ("value", "code"),
    [
        (25, "no_unit"),
        ("25", "no_unit"),
        (" 25.5 ", "no_unit"),
        ("-25 kg", "negative"),
        ("25 stone", "not_a_quantity"),
        (True, "not_a_quantity"),
        ([], "not_a_quantity"),
        ("9" * 10_000, "no_unit"),
    ],
)
def test_codes_tell_mistakes_apart(value: object, code: str) -> None:
    """A forgotten unit, a negative mass and anything else have codes of their own."""
    with pytest.raises(ValidationError) as caught:
        TypeAdapter(Mass).validate_python(value)
    (error,) = caught.value.errors()
    assert error["type"] == code
    assert MASS.how_to_write in error["msg"]


def test_unit_articles() -> None:
    """A message begins with the right article."""
    assert TEMPERATURE.with_article == "A temperature"
    assert next(d for d in DIMENSIONS if d.name == "angle").with_article == "An angle"


@pytest.mark.parametrize(
    ("value", "taken"),
    [
        ("12.50 EUR", True),
        ("0 USD", True),
        ("999999999.99 CHF", True),
        ("1000000000 CHF", False),
        ("12,50 EUR", False),
        ("012 EUR", False),
        ("12.505 EUR", False),
        ("12.50 eur", False),
        ("12.50EUR", False),
        ("-1 EUR", False),
        (12.5, False),
    ],
)
def test_a_price_is_a_number_with_its_currency(value, taken):
    """Reader and schema take plain prices: two decimals at most, and a code of three letters."""
    assert accepted(Price, value) is taken
