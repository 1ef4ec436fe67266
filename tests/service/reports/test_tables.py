"""Tables as CSV: exact numbers, and no text that a spreadsheet would run."""

import csv
import io

import pytest

from service.reports.tables import Table, table_of


def read_back(table: Table) -> list[list[str]]:
    """The cells of the CSV, header first."""
    return list(csv.reader(io.StringIO(table.as_csv().decode(), newline="")))


@pytest.mark.parametrize(
    "start", ["=", "+", "-", "@", "\t", "\r", "\n", " =", "\u00a0-", "\uff1d", "\ufe62", "\u200b="]
)
def test_text_that_begins_like_a_formula_is_neutralised(start):
    """A cell of text with a dangerous first character gets an apostrophe in front."""
    text = f"{start}cmd|' /C calc'!A0"
    assert read_back(Table(("name",), ((text,),)))[1] == ["'" + text]


@pytest.mark.parametrize("text", ["tent", "a=b", "'tent'", "", "1-2"])
def test_other_text_is_left_as_it_is(text):
    """A cell of harmless text is unchanged."""
    assert read_back(Table(("name", "x"), ((text, 1),)))[1] == [text, "1"]


def test_negative_numbers_stay_numbers():
    """A number below zero is no formula and keeps its sign alone."""
    assert read_back(Table(("t_c", "n"), ((-8.5, -3),)))[1] == ["-8.5", "-3"]


def test_headers_are_neutralised_too():
    """No column name that comes first begins like a formula."""
    assert read_back(Table(("=x",), ()))[0] == ["'=x"]


def test_quotes_commas_and_lines_survive():
    """Text with the characters that CSV uses itself is read back unchanged (RFC 4180)."""
    text = 'a "b", c\r\nd'
    assert read_back(Table(("name",), ((text,),)))[1] == [text]


def test_an_absent_value_is_an_empty_cell():
    """None is written as nothing."""
    assert read_back(Table(("a", "b"), ((None, 1),)))[1] == ["", "1"]


def test_a_row_without_a_column_is_refused():
    """A table is not made of rows that lack a cell."""
    with pytest.raises(KeyError):
        table_of(("a", "b"), [{"a": 1}])
