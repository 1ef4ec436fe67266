"""The two journeys with curl alone: a workbook becomes printed sheets, and a count new ones."""

import csv
import io
import json
import os
import subprocess
import time
import uuid
from pathlib import Path

import pytest
from openpyxl import load_workbook

from tests.docs.test_first_plan import MARK, marked_processes

ROOT = Path(__file__).parents[2]


class Made:
    """What a journey printed and wrote, and what it left running."""

    def __init__(self, name: str, folder: Path) -> None:
        mark = uuid.uuid4().hex
        store = folder / "throw-away"
        store.mkdir()
        self.folder = folder / "results"
        run = subprocess.run(
            ["bash", str(ROOT / f"examples/{name}.sh"), str(self.folder)],
            env={**os.environ, MARK: mark, "TMPDIR": str(store)},
            capture_output=True, text=True, check=False, timeout=400,
        )  # fmt: skip
        assert run.returncode == 0, run.stdout + run.stderr
        self.printed = run.stdout
        self.left = list(store.iterdir())
        until = time.monotonic() + 10
        while (running := marked_processes(mark)) and time.monotonic() < until:
            time.sleep(0.2)
        self.running = running

    def text(self, file: str) -> str:
        """A file that was written."""
        return (self.folder / file).read_text(encoding="utf-8")

    def json(self, file: str) -> dict:
        """An answer that was written."""
        return json.loads(self.text(file))


@pytest.fixture(scope="module")
def office(tmp_path_factory) -> Made:
    """The day in the office."""
    return Made("office-day", tmp_path_factory.mktemp("office"))


@pytest.fixture(scope="module")
def field(tmp_path_factory) -> Made:
    """The night in the field."""
    return Made("field-night", tmp_path_factory.mktemp("field"))


@pytest.mark.slow
def test_the_office_day_compares_three_rosters_and_releases_the_lowest_peak(office):
    """Of three rosters the released plan has the lowest peak, and each has a line in the CSV."""
    rows = office.json("comparison.json")["rows"]
    assert len(rows) == 3
    solved = [row for row in rows if row["figures"]["peak"]]
    lowest = min(solved, key=lambda row: row["figures"]["peak"])
    assert len(solved) >= 2
    assert office.json("release.json")["plan_id"] == lowest["plan_id"]
    table = list(csv.DictReader(io.StringIO(office.text("comparison.csv"))))
    assert [row["name"] for row in table] == [row["name"] for row in rows]
    assert all(row["name"] in office.text("comparison.html") for row in rows)


@pytest.mark.slow
def test_the_office_day_plans_with_the_gear_of_the_workbook(office):
    """Every item of the workbook is in the request and in the plan's own workbook."""
    sheet = load_workbook(ROOT / "examples/office-day/gear-list.xlsx").active
    listed = [row[0].value for row in sheet.iter_rows(min_row=4)]
    assert [item["name"] for item in office.json("request.json")["gear"]] == listed
    book = load_workbook(office.folder / "plan.xlsx", read_only=True)
    cells = {
        str(cell)
        for made in book.worksheets
        for row in made.iter_rows(values_only=True)
        for cell in row
    }
    assert all(any(name in cell for cell in cells) for name in listed)


@pytest.mark.slow
def test_the_office_day_ends_with_sheets_of_the_released_plan(office):
    """The sheets, the calendar and the lists are those of the plan that was released."""
    plan_id = office.json("release.json")["plan_id"]
    assert plan_id in office.text("sheets.html")
    assert plan_id in office.text("trip.ics")
    assert "Tent for three" in office.text("packing-list.csv")
    assert len(office.text("purchases.csv").splitlines()) > 3


@pytest.mark.slow
def test_the_night_in_the_field_ends_with_a_plan_that_holds(field):
    """The new plan comes of the old one, and only the old one's sheets call themselves old."""
    old, new = field.json("plan.json"), field.json("replan.json")
    line = [entry["plan_id"] for entry in field.json("history.json")["plans"]]
    assert line == [old["plan_id"], new["plan_id"]]
    assert f"SUPERSEDED by plan {new['plan_id']}" in field.text("old-sheets.html")
    sheets = field.text("sheets.html")
    assert "SUPERSEDED" not in sheets
    assert "size: A5" in sheets
    assert all(line in field.printed for line in new["outcome"]["rest"]["say"])


@pytest.mark.slow
def test_the_night_in_the_field_reads_the_difference(field):
    """The difference leads from the old plan to the new one, as JSON and as CSV."""
    told = field.json("difference.json")
    ids = (field.json("plan.json")["plan_id"], field.json("replan.json")["plan_id"])
    assert (told["plan_id"], told["to_plan_id"]) == ids
    assert len(list(csv.reader(io.StringIO(field.text("difference.csv"))))) > 1
    days = {figure["figure"]: figure for figure in told["figures"]}["days"]
    assert days["to"] == days["from"] + 1


@pytest.mark.slow
@pytest.mark.parametrize("journey", ["office", "field"])
def test_a_journey_stops_its_service_and_leaves_nothing_else(request, journey):
    """No process of the journey lives on, and no file is outside its folder of results."""
    made = request.getfixturevalue(journey)
    assert made.running == []
    assert made.left == []
