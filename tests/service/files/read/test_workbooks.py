"""Workbooks: what is read, what is refused before anything opens it, and how quickly."""

import datetime as dt
import io
import time
import zipfile

import pytest

from service.files.read.choose_sheet import choose_sheet
from service.files.read.gear_columns import GEAR
from service.files.read.gear_list import read_gear_list
from service.files.read.sheet_counts import RefusedError, SheetCounts, hidden_by, where
from service.files.read.workbook_scan import scan_workbook
from service.files.read.workbook_sheet import workbook_sheets
from tests.service.files.books import book, codes_in, with_part

HEADER = ["Item", "Mass (kg)", "Qty"]
PLAIN = book(("Gear", [HEADER, ["Tent", 3.9, 1]]))
SHEET_1 = "xl/worksheets/sheet1.xml"


DOCTYPE = "<!DOCTYPE a [<!ENTITY b 'c'>]>"
FAR_ROW = '<sheetData><row r="999999"><c r="A999999"/></row></sheetData>'


def sheet_xml(inside: str, before: str = "") -> bytes:
    """The XML of a sheet."""
    space = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
    return f'{before}<worksheet xmlns="{space}">{inside}</worksheet>'.encode()


def test_cells_keep_their_kinds():
    """Numbers stay exact to six decimals; text, flags, dates and errors are told apart."""

    def change(workbook, sheet):
        sheet.write_datetime(1, 3, dt.date(2027, 5, 1), workbook.add_format({"num_format": "d"}))
        sheet.write_boolean(1, 4, True)
        sheet.write_formula(1, 5, "=NA()", None, "#N/A")
        sheet.write_formula(1, 6, "=B2*2", None, 7.8)

    content = book(("Gear", [HEADER, ["Tent", 0.1 + 0.2, 2]]), change=change)
    (sheet,), hidden = workbook_sheets(content, "g.xlsx")
    cells = [(cell.kind, cell.text) for cell in sheet.rows[1].cells]
    assert cells[:3] == [("text", "Tent"), ("number", "0.3"), ("number", "2")]
    assert [kind for kind, _ in cells[3:]] == ["date", "flag", "error", "number"]
    assert (cells[6][1], hidden) == ("7.8", [])


def test_a_formula_that_was_never_computed_is_no_empty_cell():
    """A program that writes no values is told so, cell by cell."""
    content = with_part(
        PLAIN,
        SHEET_1,
        sheet_xml(
            '<sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>Item</t></is></c>'
            '<c r="B1" t="inlineStr"><is><t>Mass (kg)</t></is></c></row>'
            '<row r="2"><c r="A2" t="inlineStr"><is><t>Tent</t></is></c>'
            '<c r="B2"><f>1+2</f></c></row></sheetData>'
        ),
    )
    assert codes_in(read_gear_list, content, "g.xlsx") == [("uncomputed_formula", "B2")]


def test_a_wrong_size_in_the_file_loses_no_cells():
    """A sheet that says it has one cell is read whole."""
    with zipfile.ZipFile(io.BytesIO(PLAIN)) as archive:
        text = archive.read(SHEET_1).decode()
    assert '<dimension ref="A1:C2"/>' in text
    content = with_part(PLAIN, SHEET_1, text.replace("A1:C2", "A1").encode())
    assert len(read_gear_list(content, "g.xlsx").gear) == 1


def test_merged_cells_are_named():
    """Below a merge that carries data, every hidden cell is a fault; a merged title is none."""

    def change(_, sheet):
        sheet.merge_range(0, 0, 0, 2, "Our gear")
        sheet.merge_range(2, 2, 3, 2, 1)

    content = book(("Gear", [[], HEADER, ["Tent", 3.9], ["Stove", 0.5]]), change=change)
    assert codes_in(read_gear_list, content, "g.xlsx") == [("merged", "C4")]


def test_hidden_sheets_are_not_read():
    """A hidden sheet is named in the answer and nothing comes from it."""

    def change(_, _gear, old):
        old.hide()

    content = book(("Gear", [HEADER, ["Tent", 3.9, 1]]), ("Old", [HEADER]), change=change)
    answer = read_gear_list(content, "g.xlsx")
    assert (answer.read.sheet, answer.read.sheets_not_read) == ("Gear", ["Old"])


def test_the_sheet_is_chosen_by_its_header_or_by_its_name():
    """The sheet with most known names is read; of two alike one must be named."""
    notes = ("Notes", [["Name", "Telephone"], ["a", "b"]])
    gear = ("Gear", [HEADER, ["Tent", 3.9, 1]])
    assert choose_sheet(book(notes, gear), "g.xlsx", GEAR, None, []).sheet.name == "Gear"
    assert choose_sheet(book(notes, gear), "g.xlsx", GEAR, "Notes", []).sheet.name == "Notes"
    twice = book(gear, ("More", [HEADER]))
    assert codes_in(choose_sheet, twice, "g.xlsx", GEAR, None, []) == [("several_sheets", "")]
    assert codes_in(choose_sheet, twice, "g.xlsx", GEAR, "x", []) == [("no_such_sheet", "")]
    nothing = book(("A", [["Colour"]]))
    assert codes_in(choose_sheet, nothing, "g.xlsx", GEAR, None, []) == [("no_header", "")]


def bomb(name: str) -> bytes:
    """A workbook with a part that unpacks to 65 MiB."""
    return with_part(PLAIN, name, b"<a>" + b" " * (65 * 1024 * 1024) + b"</a>")


@pytest.mark.parametrize(
    ("content", "code"),
    [
        (lambda: bomb("xl/sharedStrings.xml"), "too_large"),
        (lambda: bomb("xl/media/image1.png"), "too_large"),
        (lambda: with_part(PLAIN, SHEET_1, sheet_xml("", DOCTYPE)), "doctype"),
        (
            lambda: with_part(
                PLAIN, SHEET_1, sheet_xml(FAR_ROW)
            ),
            "too_large",
        ),
        (
            lambda: with_part(
                PLAIN, SHEET_1, sheet_xml('<sheetData><row r="1"><c r="XFD1"/></row></sheetData>')
            ),
            "too_large",
        ),
        (lambda: with_part(PLAIN, SHEET_1, b"<worksheet>"), "bad_xml"),
        (lambda: with_part(PLAIN, SHEET_1, sheet_xml("<row/>" * 6000)), "too_large"),
        (lambda: b"PK\x03\x04 and nothing else", "not_a_workbook"),
        (lambda: b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(600), "bad_encoding"),
        (lambda: PLAIN[:-200], "not_a_workbook"),
        (lambda: with_part(PLAIN, "xl/workbook.xml", b"<workbook/>"), "not_a_workbook"),
        (lambda: b"PK" + bytes(17 * 1024 * 1024), "too_large"),
    ],
    ids=[
        "strings", "image", "doctype", "far row", "far column", "open xml", "rows", "no zip",
        "old format", "cut off", "no sheets", "17 MiB",
    ],
)  # fmt: skip
def test_what_is_no_workbook_is_refused_at_once(content, code):
    """Bombs, far cells, DOCTYPEs and damage are refused with a code, within two seconds of CPU."""
    made = content()
    begin = time.process_time()
    assert codes_in(read_gear_list, made, "g.xlsx") == [(code, "")]
    assert time.process_time() - begin < 2


def test_the_scan_counts_while_it_unpacks():
    """Sheets come with their merges and whether they have formulas; counting stops at a limit."""

    def change(_, sheet):
        sheet.merge_range(5, 0, 6, 1, "x")
        sheet.write_formula(1, 1, "=1+1", None, 2)

    (sheet,) = scan_workbook(book(("Gear", [HEADER]), change=change), "g.xlsx")
    assert (sheet.name, sheet.hidden, sheet.merges, sheet.has_formulas) == (
        "Gear",
        False,
        ("A6:B7",),
        True,
    )
    counts = SheetCounts(cells_left=1)
    counts.begin("c", {"r": "A1"})
    with pytest.raises(RefusedError):
        counts.begin("c", {"r": "B1"})


def test_cells_and_merges_are_found_by_their_names():
    """AA10 is column 27, row 10; a merge hides all of its cells but the first."""
    assert (where("AA10"), where("nonsense")) == ((27, 10), (0, 0))
    assert hidden_by(("B2:C3", "junk")) == {(2, 2), (3, 1), (3, 2)}
