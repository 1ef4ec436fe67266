"""Files sent to the service: taken, refused, and named cell by cell."""

from dataclasses import replace

import pytest

from api_schema.examples import SMALLEST_GEAR_LIST, SMALLEST_ROSTER, SMALLEST_TRACK
from api_schema.list_file_answer import GearListFileAnswer, RosterFileAnswer
from api_schema.problem_details import ProblemDetails
from api_schema.route_file_answer import RouteFileAnswer
from service.routes.files import WORKBOOK
from tests.service.files.books import book

CSV = {"Content-Type": "text/csv; charset=utf-8"}


@pytest.mark.parametrize(
    ("path", "text", "media_type", "model"),
    [
        ("gear-list", SMALLEST_GEAR_LIST, "text/csv", GearListFileAnswer),
        ("roster", SMALLEST_ROSTER, "application/octet-stream", RosterFileAnswer),
        ("route", SMALLEST_TRACK, "application/gpx+xml", RouteFileAnswer),
    ],
)
def test_each_kind_of_file_has_its_address(shared_client, path, text, media_type, model):
    """The answer keeps to its model."""
    answer = shared_client.post(
        f"/v1/files/{path}", content=text, headers={"Content-Type": media_type}
    )
    assert answer.status_code == 200, answer.text
    assert model.model_validate_json(answer.content).assumed


def test_a_bad_cell_of_a_workbook_is_named(shared_client):
    """The fault says file, sheet, row, column and header, and no pointer into JSON."""
    content = book(("Gear", [["Item", "Mass (kg)"], ["Tent", "heavy"]]))
    answer = shared_client.post(
        "/v1/files/gear-list?file=gear.xlsx", content=content, headers={"Content-Type": WORKBOOK}
    )
    assert answer.status_code == 422
    (fault,) = ProblemDetails.model_validate_json(answer.content).errors
    assert fault.pointer is None
    assert fault.place.model_dump() == {
        "file": "gear.xlsx",
        "sheet": "Gear",
        "row": 2,
        "column": "B",
        "header": "Mass (kg)",
    }
    assert fault.detail.startswith("gear.xlsx, sheet Gear, row 2, column B (Mass (kg)): A mass")


def test_the_sheet_can_be_named(shared_client):
    """Of two sheets alike the parameter chooses one."""
    rows = [["Item", "Mass (kg)"], ["Tent", 3.9]]
    answer = shared_client.post(
        "/v1/files/gear-list?sheet=Two",
        content=book(("One", rows), ("Two", rows)),
        headers={"Content-Type": WORKBOOK},
    )
    assert answer.json()["read"]["sheet"] == "Two"


@pytest.mark.parametrize(
    ("headers", "status"),
    [
        ({"Content-Type": "application/json"}, 415),
        ({"Content-Type": "text/csv", "Content-Encoding": "gzip"}, 415),
        ({"Content-Type": "text/csv", "Content-Length": "999999999999"}, 413),
        ({"Content-Type": "text/csv", "Accept": "text/html"}, 406),
    ],
)
def test_what_is_no_file_for_it_is_refused_before_it_is_read(shared_client, headers, status):
    """Media type, encoding, size and the wanted answer are settled first."""
    answer = shared_client.post("/v1/files/gear-list", content=b"x", headers=headers)
    assert answer.status_code == status


def test_a_file_that_grows_too_large_is_refused(client, settings):
    """A body without a length is counted as it comes."""
    wiring = client.app.state.wiring
    smaller = settings.model_copy(update={"file_limit_bytes": 1000})
    client.app.state.wiring = replace(wiring, settings=smaller)
    answer = client.post("/v1/files/roster", content=(b"x" * 100 for _ in range(20)), headers=CSV)
    assert (answer.status_code, answer.json()["code"]) == (413, "body_too_large")
