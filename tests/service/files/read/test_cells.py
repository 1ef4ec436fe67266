"""Cells, headers, numbers and values, each by itself."""

import pytest

from api_schema.quantities import ELEVATION, MASS, TEMPERATURE
from service.files.read.assumed import Assumed
from service.files.read.cells import BLANK, Cell, Row, Sheet, column_letters
from service.files.read.columns import Column, folded, unit_of
from service.files.read.decimals import (
    AmbiguousNumberError,
    MixedSignsError,
    decimal_sign,
    plain_number,
)
from service.files.read.gear_columns import GEAR
from service.files.read.headers import MappedColumn, best_header, known_names, named, read_header
from service.files.read.ids import id_from
from service.files.read.places import cell_fault, row_fault, shown
from service.files.read.roster_columns import ROSTER
from service.files.read.values import CellError, read_cell


def mapped(kind, unit=None, **choices) -> MappedColumn:
    """A column of that kind."""
    return MappedColumn(0, "x", Column("x", ("x",), kind, choices), unit)


@pytest.mark.parametrize(
    ("column", "letters"), [(0, "A"), (25, "Z"), (26, "AA"), (701, "ZZ"), (702, "AAA")]
)
def test_columns_have_the_letters_of_a_spreadsheet(column, letters):
    """After Z comes AA, after ZZ comes AAA."""
    assert column_letters(column) == letters


def test_a_row_ends_in_blanks():
    """Beyond its last cell a row is blank."""
    row = Row(3, (Cell("text", "a"),))
    assert (row.cell(0).text, row.cell(9)) == ("a", BLANK)
    assert not row.is_blank
    assert Row(4, (BLANK,)).is_blank


@pytest.mark.parametrize(
    ("name", "plain"),
    [
        ("Mass (kg)", "mass kg"),
        ("  Größe_[m] ", "grosse m"),
        ("NEEDED-BELOW °C", "needed below deg c"),
    ],
)
def test_names_are_folded(name, plain):
    """Case, accents, punctuation and doubled blanks do not count."""
    assert folded(name) == plain


@pytest.mark.parametrize("form", [GEAR, ROSTER])
def test_no_name_stands_for_two_fields(form):
    """Each name of a column is folded already, and belongs to one column."""
    names = [name for column in form.columns for name in column.names]
    assert len(set(names)) == len(names)
    assert [folded(name) for name in names] == names


@pytest.mark.parametrize("form", [GEAR, ROSTER])
def test_a_field_is_known_by_its_own_name(form):
    """The name of a field in a request is a header."""
    assert all(named(c.field, form).column is c for c in form.columns if c.field != "name")


@pytest.mark.parametrize(
    ("header", "field", "unit"),
    [
        ("Weight (g)", "mass", "g"),
        ("mass_kg", "mass", "kg"),
        ("Weight in ounces", "mass", "oz"),
        ("Packed volume [L]", "volume", "L"),
        ("Needed below °C", "needed_below", "degC"),
        ("Qty.", "count", None),
    ],
)
def test_a_header_names_a_field_and_a_unit(header, field, unit):
    """Brackets, underscores, words and signs of units are read."""
    found = named(header, GEAR)
    assert (found.column.field, found.unit) == (field, unit)


@pytest.mark.parametrize("header", ["Colour", "", "(kg)", "price kg"])
def test_an_unknown_header_names_nothing(header):
    """Only the closed list of names is known."""
    assert named(header, GEAR) is None


def test_the_header_is_the_row_with_most_known_names():
    """Title rows above the header do not count, and each field counts once."""
    rows = [["Gear"], [], ["Item", "Mass (kg)", "Weight (g)"], ["Tent", "3.9", ""]]
    cells = [Row(n, tuple(Cell("text", t) for t in row)) for n, row in enumerate(rows, 1)]
    count, row = best_header(Sheet("x.csv", None, tuple(cells)), GEAR)
    assert (count, row.number) == (2, 3)
    assert known_names(rows[2], GEAR) == 2


def test_a_field_twice_and_a_wrong_unit_are_faults_of_the_header():
    """Both cells are named, and the field that lacks a column is as well."""
    row = Row(1, tuple(Cell("text", t) for t in ("Item", "Name", "Mass (mL)", "Colour")))
    faults = []
    header = read_header(Sheet("x.csv", None, (row,)), row, GEAR, faults)
    assert [(f.code, f.place.column) for f in faults] == [
        ("doubled", "B"),
        ("wrong_unit", "C"),
        ("missing_column", None),
    ]
    assert header.not_read == ("Colour",)
    assert header.of("name").index == 0


@pytest.mark.parametrize(
    ("texts", "sign"),
    [
        (["1.5", "2"], "."),
        (["1,5 kg"], ","),
        (["1,234.5"], "."),
        (["1.234,5"], ","),
        (["0,125"], ","),
        (["1,234", "1.234", "7"], None),
    ],
)
def test_the_decimal_sign_is_found_from_all_numbers(texts, sign):
    """One number that can be read in one way only settles the sign of the file."""
    assert decimal_sign(texts) == sign


def test_two_decimal_signs_are_refused():
    """A file with 1.5 and 1,5 has no sign."""
    with pytest.raises(MixedSignsError):
        decimal_sign(["1.5", "1,5"])


@pytest.mark.parametrize(
    ("text", "sign", "number"),
    [
        ("1,5", ",", "1.5"),
        ("1.5", ".", "1.5"),
        ("1,234", ",", "1.234"),
        ("1.234", ".", "1.234"),
        ("1,234.5", ".", "1234.5"),
        ("1.234,5", ",", "1234.5"),
        (".5", ".", "0.5"),
        ("-8,5", ",", "-8.5"),
        ("\u22128", None, "-8"),
        ("12", None, "12"),
        ("x", None, None),
        ("1e5", None, None),
    ],
)
def test_a_number_is_read_by_the_sign_of_its_file(text, sign, number):
    """What comes out has a decimal point and nothing else."""
    assert plain_number(text, sign) == number


@pytest.mark.parametrize(
    ("text", "sign"), [("1,234", None), ("1.234", None), ("1,5", "."), ("1.5", ","), ("1,2,3", ",")]
)
def test_a_number_with_two_meanings_is_refused(text, sign):
    """1,234 may be one thousand or one; nobody guesses."""
    with pytest.raises(AmbiguousNumberError):
        plain_number(text, sign)


@pytest.mark.parametrize(
    ("cell", "unit", "value"),
    [
        (Cell("number", "3.9"), "kg", "3.9 kg"),
        (Cell("text", "480 g"), "kg", "480 g"),
        (Cell("text", "480g"), None, "480 g"),
        (Cell("text", "2 lb 3 oz"), None, "35 oz"),
        (Cell("text", "1.50 pounds"), None, "1.5 lb"),
        (Cell("number", "1234"), "g", "1234 g"),
        (Cell("number", "0.1"), "oz", "0.1 oz"),
    ],
)
def test_a_quantity_has_the_unit_of_its_cell_or_else_of_its_header(cell, unit, value):
    """The unit in the cell goes before the one in the header; pounds and ounces add up."""
    assert read_cell(cell, mapped(MASS, unit), ".") == value


@pytest.mark.parametrize(
    ("cell", "kind", "code"),
    [
        (Cell("number", "3.9"), MASS, "no_unit"),
        (Cell("text", "3.9 L"), MASS, "wrong_unit"),
        (Cell("text", "-3 kg"), MASS, "negative"),
        (Cell("text", "about 3 kg"), MASS, "not_a_quantity"),
        (Cell("text", "=1+2"), MASS, "not_a_quantity"),
        (Cell("text", "1,234 kg"), MASS, "ambiguous_number"),
        (Cell("flag", "yes"), MASS, "not_a_quantity"),
        (Cell("date", "2027-05-01"), MASS, "date"),
        (Cell("error", "#N/A"), MASS, "error_value"),
        (Cell("uncomputed"), MASS, "uncomputed_formula"),
        (Cell("text", "1.5"), "whole", "not_whole"),
        (Cell("text", "two"), "whole", "not_a_number"),
        (Cell("text", "perhaps"), "flag", "not_a_flag"),
        (Cell("number", "7"), "flag", "not_a_flag"),
        (Cell("text", "often"), "choice", "not_a_choice"),
        (Cell("text", "camp-1"), "counts", "not_counts"),
        (Cell("text", "camp 1"), "id", "bad_id"),
    ],
)
def test_a_cell_that_cannot_be_read_has_a_code(cell, kind, code):
    """Each mistake has its own code, and none becomes a value."""
    with pytest.raises(CellError) as caught:
        read_cell(
            cell, mapped(kind, None, night=("every night",)), None if "," in cell.text else "."
        )
    assert caught.value.code == code


@pytest.mark.parametrize(
    ("cell", "kind", "value"),
    [
        (Cell("text", "-8 °C"), TEMPERATURE, "-8 degC"),
        (Cell("text", "14000 ft"), ELEVATION, "14000 ft"),
        (Cell("flag", "no"), "flag", False),
        (Cell("text", "X"), "flag", True),
        (Cell("text", "Every Night"), "choice", "night"),
        (Cell("text", "night; every night"), "choices", ["night", "night"]),
        (Cell("text", "Milk, Tree nut"), "words", ["milk", "tree nut"]),
        (Cell("text", "camp-1: 6; camp-2:3"), "counts", {"camp-1": 6, "camp-2": 3}),
        (Cell("number", "2"), "whole", 2),
    ],
)
def test_other_values_are_read(cell, kind, value):
    """Flags, choices, lists and counts by place are read by their words."""
    assert read_cell(cell, mapped(kind, None, night=("every night",)), ".") == value


def test_units_belong_to_their_dimension():
    """Celsius is no unit of mass."""
    assert (unit_of("c", TEMPERATURE), unit_of("c", MASS)) == ("degC", None)


def test_ids_are_made_once():
    """Letters, digits and hyphens are left of a name; the second of a kind gets a number."""
    taken = set()
    made = [id_from(name, taken, otherwise="item") for name in ("Zelt, groß", "zelt groß", "帐篷")]
    assert made == ["zelt-gro", "zelt-gro-2", "item"]


def test_names_in_faults_are_short_and_plain():
    """No control character and no long text of a file comes into an answer."""
    assert shown("a\x1b[31m\nb" + "x" * 200) == "a [31m b" + "x" * 51 + "…"
    sheet = Sheet("g\u202e.csv", None, ())
    fault = cell_fault(sheet, 7, (2, "Mass"), "no_unit", "Write a unit.")
    assert fault.detail == "g .csv, row 7, column C (Mass): Write a unit."
    assert row_fault(sheet, 7, "no_name", "x").place.column is None


def test_assumptions_are_gathered_by_sentence():
    """Each sentence stands once, with its rows, of which at most 200 are listed."""
    assumed = Assumed()
    for row in range(250):
        assumed.note("Made.", row)
    assumed.note("Once.")
    made, once = assumed.answers()
    assert (len(made.rows), made.rows_left_out, once.rows) == (200, 50, [])
