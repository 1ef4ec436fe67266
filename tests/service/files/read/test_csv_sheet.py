"""CSV files as sheets: encodings, delimiters and quotes."""

import pytest

from service.files.read.csv_sheet import csv_sheet
from service.files.read.gear_columns import GEAR
from service.files.read.headers import known_names
from tests.service.files.books import codes_in


def read(content: bytes):
    """The sheet of a gear list."""
    return csv_sheet(content, "g.csv", lambda names: known_names(names, GEAR))


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
@pytest.mark.parametrize("delimiter", [",", ";", "\t", "|"])
def test_encodings_and_delimiters_are_found(encoding, delimiter):
    """UTF-8 with or without a mark, UTF-16 with one, and four delimiters give the same cells."""
    sheet = read(f"Item{delimiter}Mass (kg)\r\nKüche{delimiter}1.5\r\n".encode(encoding))
    assert [[cell.text for cell in row.cells] for row in sheet.rows] == [
        ["Item", "Mass (kg)"],
        ["Küche", "1.5"],
    ]


def test_rows_have_the_number_of_the_line_on_which_they_begin():
    """A line feed within quotes does not shift what people see in an editor."""
    sheet = read(b'Item,Mass\n"two\nlines",1 kg\nx,2 kg\n')
    assert [row.number for row in sheet.rows] == [1, 2, 4]


def test_defused_text_is_read_as_it_was():
    """The apostrophe in front of live text is taken away, any other stays."""
    sheet = read(b"Item,Mass\n'=cmd|x,1 kg\n'quoted',1 kg\n")
    assert [row.cells[0].text for row in sheet.rows[1:]] == ["=cmd|x", "'quoted'"]


@pytest.mark.parametrize(
    ("content", "code"),
    [
        ("Item,Größe\n".encode("latin-1"), ("bad_encoding", "")),
        (b"Item,\x00Mass\n", ("bad_encoding", "")),
        (b'Item,Mass\nx,"1 kg\ny,2 kg\n', ("bad_quotes", "2")),
        (b"Item,Mass\n" + b"x,1 kg\n" * 5001, ("too_large", "")),
        (b"Item" + b"," * 64 + b"\n", ("too_large", "")),
        (b"Item,Mass\n" + b"x" * 2001 + b",1 kg\n", ("cell_too_long", "2")),
    ],
    ids=["latin-1", "nul", "open quote", "rows", "columns", "long cell"],
)
def test_what_is_no_csv_is_refused(content, code):
    """Another encoding, an open quote and a file that is too large are faults with their place."""
    assert codes_in(read, content) == [code]
