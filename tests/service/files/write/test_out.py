"""Workbooks, lists and calendars that go out have the plan's numbers and come in again."""

import csv
import datetime as dt
import io
import zipfile

import icalendar
import openpyxl
import pytest

from service.files.read.gear_list import read_gear_list
from service.files.write.calendar import calendar_of
from service.files.write.workbook import workbook_of
from service.reports.gear_list import COLUMNS, gear_list_table
from service.reports.loads import loads_table
from service.reports.packing_list import owner_of, packing_list_table, people_of
from service.reports.tables import Table, table_of
from service.translate.read.quantities import exactly

WHEN = dt.datetime(2027, 5, 1, 12, tzinfo=dt.UTC)
NASTY = ["=cmd|' /C calc'!A0", "\uff1d1+1", " =1", "-8 degC", "'=1", "plain", "@x", "\n+1"]


def made(tables: dict[str, Table]) -> bytes:
    """A workbook of these tables."""
    return workbook_of(tables, title="Trip & co", about="x", created=WHEN)


def unit(unit_id: str, each_kg: float, count: int = 1) -> dict:
    """Units of one kind."""
    return {"unit_id": unit_id, "name": None, "count": count, "each_kg": each_kg, "each_l": 1.5}


def outcome() -> dict:
    """A solved outcome with one trip, as far as lists and calendars look at it."""
    load = {
        "person_id": "lead",
        "pack": [unit("tent", 3.9), unit("lead/bag", 1.65)],
        "water_kg": 2.0,
        "lunch_kg": 0.35,
        "sled_id": None,
        "total_kg": 7.9,
    }
    trip = {"day": 1, "date": "2027-05-20", "step": 1, "from": "road", "to": "camp-1"}
    days = [
        {"day": n, "date": f"2027-05-{19 + n}", "kind": kind, "note": note, "places": {"team": way}}
        for n, kind, note, way in (
            (1, "move", "start early; cold, windy", ["road", "camp-1"]),
            (2, "rest", None, ["camp-1"]),
        )
    ]
    taken = [unit("lead/bag", 1.65), unit("tent", 3.9), unit("all/low", 0.98, 12)]
    plan = {"days": days, "trips": [{**trip, "loads": [load]}], "taken_along": taken}
    return {"plan": plan}


def test_a_workbook_has_the_numbers_of_its_tables():
    """Opened again, each cell is the number or the text of the table, and blanks are blank."""
    table = loads_table(outcome())
    book = openpyxl.load_workbook(io.BytesIO(made({"Loads": table})))
    rows = list(book["Loads"].iter_rows(values_only=True))
    assert rows[0] == table.columns
    assert rows[1:] == list(table.rows)
    assert book["Loads"].freeze_panes == "A2"
    assert book["Loads"].print_title_rows == "$1:$1"


def test_text_that_could_run_stays_text_in_a_workbook():
    """No cell is a formula, and each text comes back as it was."""
    content = made({"A": Table(("x",), tuple((text,) for text in NASTY))})
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        assert b"<f>" not in archive.read("xl/worksheets/sheet1.xml")
    sheet = openpyxl.load_workbook(io.BytesIO(content))["A"]
    assert [row[0] for row in sheet.iter_rows(min_row=2, values_only=True)] == NASTY
    assert sheet["A2"].data_type == "s"
    assert sheet["A2"].quotePrefix


def test_the_same_tables_give_the_same_bytes():
    """A workbook has no time of its own."""
    tables = {"Loads": loads_table(outcome())}
    assert made(tables) == made(tables)


def test_the_packing_list_is_by_owner_with_room_to_write():
    """Shared things come first, then each person's; two columns are blank."""
    table = packing_list_table(outcome())
    assert [row[:2] for row in table.rows] == [
        ("shared", "tent"),
        ("shared", "all/low"),
        ("lead", "lead/bag"),
    ]
    assert table.rows[1][5] == 11.76
    assert {row[6:] for row in table.rows} == {(None, None)}
    assert owner_of("lead/bag", people_of(outcome())) == "lead"
    assert owner_of("all/low", ["lead"]) == "shared"


REQUEST = {
    "gear": [
        {"item_id": "tent", "name": "=Tent", "needed": "every_night", "purpose": "shelter",
         "shelter_places": 3, "parts": [{"part_id": "poles", "mass": "900 g"},
                                        {"part_id": "fly", "mass": "3 lb", "volume": "3 L"}]},
        {"item_id": "wand", "mass": "0.1 oz", "count": 9, "needed": "at_place", "up_to": "camp-2",
         "left_at": {"camp-1": 6}, "go_ahead": True, "may_follow": True, "apart": "wands"},
        {"item_id": "sack", "mass": "1 kg", "needed": "every_trip", "purpose":
         "human_waste_container", "capacity": "8 floz", "length": "160 cm", "outside": True},
    ],
    "personal_kits": {"main": [
        {"item_id": "parka", "mass": "1 kg", "volume": "11 L", "needed": "every_night", "purpose":
         "cold_clothing", "needed_below": "-22 degC", "in_use_on": ["pack", "summit"]},
        {"item_id": "cream", "mass": "90 g", "needed": "worn", "spoils_below": "23 degF"},
    ]},
    "roster": [{"person_id": "lead", "personal_kit": "main", "extra_items": [
        {"item_id": "radio", "mass": "300 g", "needed": "every_trip", "purpose": "communicator",
         "communicator_kind": "voice radio", "from_place": "camp-1"}]}],
}  # fmt: skip
QUANTITIES = ("mass", "volume", "capacity", "needed_below", "spoils_below", "length")


def in_base_units(item: dict) -> dict:
    """An item with its quantities as numbers, and with what a request may leave out."""
    numbers = {n: pytest.approx(float(exactly(item[n])), abs=2e-6) for n in QUANTITIES if n in item}
    parts = {"parts": [in_base_units(part) for part in item["parts"]]} if "parts" in item else {}
    count = {} if "part_id" in item else {"count": item.get("count", 1)}
    return {**item, **count, **numbers, **parts}


@pytest.mark.parametrize("form", ["csv", "xlsx"])
def test_a_gear_list_that_goes_out_comes_in_again(form):
    """Every field of every item, part and kit is read as it was sent, whatever its units."""
    table = gear_list_table(REQUEST)
    content = table.as_csv() if form == "csv" else made({"Loads": Table(("a",), ()), "Gear": table})
    answer = read_gear_list(content, f"g.{form}")
    sent = [in_base_units(item) for item in REQUEST["gear"]]
    assert [
        {**item, **{n: float(exactly(item[n])) for n in QUANTITIES if n in item},
         **({"parts": [{**p, **{n: float(exactly(p[n])) for n in QUANTITIES if n in p}}
                       for p in item["parts"]]} if "parts" in item else {})}
        for item in answer.gear
    ] == sent  # fmt: skip
    assert set(answer.personal_kits) == {"main", "lead"}
    parka, cream = answer.personal_kits["main"]
    assert parka["in_use_on"] == ["pack", "summit"]
    assert exactly(cream["spoils_below"]) == -5
    assert answer.personal_kits["lead"][0]["communicator_kind"] == "voice radio"
    assert answer.assumed == []


def test_every_field_of_an_item_has_a_column():
    """The test above has a value for every column, so that none is lost unnoticed."""
    table = gear_list_table(REQUEST)
    filled = {name for name in COLUMNS for row in table.as_rows() if row[name] is not None}
    assert filled == set(COLUMNS) - {"rope_team"}


def calendar(**changes) -> icalendar.Calendar:
    """The calendar of the plan, read again."""
    given = {"plan_id": "plan_1", "sequence": 2, "stamp": WHEN, "names": {"road": "Road"}}
    return icalendar.Calendar.from_ical(calendar_of(outcome(), **{**given, **changes}))


def test_each_day_is_an_event_all_day_long():
    """Dates have no time, the end is exclusive, and each event has all that RFC 5545 asks for."""
    first, second = calendar().walk("VEVENT")
    assert first["DTSTART"].to_ical() == b"20270520"
    assert first["DTSTART"].params["VALUE"] == "DATE"
    assert first["DTEND"].dt == dt.date(2027, 5, 21)
    assert [event["UID"] for event in (first, second)] == [
        "plan_1-day-1@haulwright",
        "plan_1-day-2@haulwright",
    ]
    assert (first["SEQUENCE"], first["DTSTAMP"].dt) == (2, WHEN)
    assert first["SUMMARY"] == "Day 1: move, Road - camp-1"
    assert "start early; cold, windy\nroad to camp-1: lead 7.9 kg" in first["DESCRIPTION"]


def test_a_calendar_keeps_to_its_form():
    """Lines are folded at 75 bytes and end in CRLF; the calendar has its two required fields."""
    names = {"camp-1": "A camp with a very long name indeed " * 4}
    text = calendar_of(outcome(), plan_id="plan_1", sequence=0, stamp=WHEN, names=names)
    assert all(len(line) <= 75 for line in text.split(b"\r\n"))
    assert b"\n" not in text.replace(b"\r\n", b"")
    read = icalendar.Calendar.from_ical(text)
    assert (read["VERSION"], bool(read["PRODID"])) == ("2.0", True)


def test_tables_with_the_mark_are_read_as_utf_8():
    """The byte-order mark is no part of the first header."""
    text = (b"\xef\xbb\xbf" + table_of(("item_id",), [{"item_id": "é"}]).as_csv()).decode(
        "utf-8-sig"
    )
    assert next(csv.reader(io.StringIO(text))) == ["item_id"]
