"""The files of a plan at their addresses: media types, names, marks and refusals."""

import io
import json

import openpyxl
import pytest

from api_schema.examples import SMALLEST_REQUEST
from service.pages.pdf_printer import can_print
from service.reports.tables import BYTE_ORDER_MARK
from service.routes.files import WORKBOOK


@pytest.fixture(scope="module")
def solved(caller) -> dict:
    """The smallest request, solved."""
    answer = caller.post("/v1/plans", json=SMALLEST_REQUEST, headers={"Prefer": "wait=50"}).json()
    assert answer["outcome_kind"] == "solved", answer
    return answer


def test_the_workbook_has_the_loads_of_the_plan(caller, solved):
    """The sheet of loads adds up to the gross loads of the plan, and is a file with a name."""
    answer = caller.get(f"/v1/plans/{solved['plan_id']}/workbook")
    assert answer.headers["content-type"] == WORKBOOK
    assert f'filename="{solved["plan_id"]}.xlsx"' in answer.headers["content-disposition"]
    book = openpyxl.load_workbook(io.BytesIO(answer.content))
    assert {"Loads", "Stock", "Packing list", "Gear", "Cautions"} <= set(book.sheetnames)
    header, *rows = book["Loads"].iter_rows(values_only=True)
    total = sum(row[header.index("kg")] for row in rows)
    trips = solved["outcome"]["plan"]["trips"]
    gross = sum(load["pack_kg"] + load["sled_kg"] for trip in trips for load in trip["loads"])
    assert total == pytest.approx(gross, abs=1e-6)


def test_the_workbook_has_the_nights_of_the_plan(caller, solved):
    """The sheet of nights has the bags that each kitchen eats, and stoves with who brought them."""
    book = caller.get(f"/v1/plans/{solved['plan_id']}/workbook").content
    header, *rows = openpyxl.load_workbook(io.BytesIO(book))["Nights"].iter_rows(values_only=True)
    named = [dict(zip(header, row, strict=True)) for row in rows]
    used = solved["outcome"]["plan"]["used"]
    eaten = [(row["day"], row["place"], row["count"]) for row in named if row["what"] == "food"]
    assert eaten == [(one["day"], one["place"], one["bags"]) for one in used]
    stoves = [row for row in named if row["what"] == "stove"]
    assert len(stoves) == len(used)
    trips = solved["outcome"]["plan"]["trips"]
    for row in stoves:
        came = {
            load["person_id"]
            for trip in trips
            if trip["to"] == row["place"] and trip["day"] <= row["day"]
            for load in trip["loads"]
            if any(unit["unit_id"] == "stove" for unit in load["pack"] + load["sled"])
        }
        assert bool(row["brought"]) == bool(came)
        people = {one["person_id"] for one in SMALLEST_REQUEST["roster"]}
        assert {who for who in people if who in (row["brought"] or "")} <= came


def test_the_gear_of_the_workbook_is_taken_again(caller, solved):
    """The sheet `Gear`, sent back, gives the items of the request."""
    address = f"/v1/plans/{solved['plan_id']}"
    book = caller.get(f"{address}/workbook").content
    answer = caller.post(
        "/v1/files/gear-list?sheet=Gear", content=book, headers={"Content-Type": WORKBOOK}
    )
    assert answer.status_code == 200, answer.text
    ids = [item["item_id"] for item in answer.json()["gear"]]
    assert ids == [item["item_id"] for item in SMALLEST_REQUEST["gear"]]


@pytest.mark.parametrize("view", ["packing-list", "gear-list", "loads", "stock", "cautions"])
def test_csv_has_a_byte_order_mark_on_request(caller, solved, view):
    """With ?byte_order_mark=true CSV begins with the mark, and without it not."""
    address = f"/v1/plans/{solved['plan_id']}/{view}"
    headers = {"Accept": "text/csv"}
    plain = caller.get(address, headers=headers).content
    marked = caller.get(f"{address}?byte_order_mark=true", headers=headers).content
    assert marked == BYTE_ORDER_MARK + plain
    assert not plain.startswith(BYTE_ORDER_MARK)


def test_the_calendar_has_a_day_for_each_day(caller, solved):
    """There are as many events as days, and the answer is text/calendar."""
    answer = caller.get(f"/v1/plans/{solved['plan_id']}/calendar")
    assert answer.headers["content-type"].startswith("text/calendar")
    assert answer.text.count("BEGIN:VEVENT") == len(SMALLEST_REQUEST["calendar"])


def test_a_plan_without_dates_has_no_calendar(caller):
    """It is said so, with what to do."""
    request = {k: v for k, v in SMALLEST_REQUEST.items() if k != "start_date"}
    plan = caller.post("/v1/plans", json=request, headers={"Prefer": "wait=50"}).json()
    answer = caller.get(f"/v1/plans/{plan['plan_id']}/calendar")
    assert (answer.status_code, json.loads(answer.content)["code"]) == (409, "no_dates")


def test_a_file_is_given_only_in_its_own_form(caller, solved):
    """Somebody who asks for HTML gets no workbook."""
    address = f"/v1/plans/{solved['plan_id']}/workbook"
    assert caller.get(address, headers={"Accept": "text/html"}).status_code == 406


def test_the_pages_come_with_a_policy(caller, solved):
    """The pages are HTML for A5 and pounds on request, under a policy that lets nothing else in."""
    address = f"/v1/plans/{solved['plan_id']}/pages?paper=a5&units=us&sheet=cover&sheet=days"
    answer = caller.get(address, headers={"Accept": "text/html"})
    assert answer.status_code == 200
    assert "default-src 'none'" in answer.headers["content-security-policy"]
    assert "size: A5" in answer.text
    assert "Pack lb" in answer.text
    assert "Cautions in full" not in answer.text
    assert caller.get(f"/v1/plans/{solved['plan_id']}/pages?paper=napkin").status_code == 422


def test_pdf_is_given_where_it_can_be_printed(caller, solved):
    """With the extra there is PDF at the address of the pages; without it 406 says what to ask."""
    address = f"/v1/plans/{solved['plan_id']}/pages?sheet=cover"
    answer = caller.get(address, headers={"Accept": "application/pdf"})
    if can_print():
        assert (answer.status_code, answer.content[:4]) == (200, b"%PDF")
        assert answer.headers["content-type"] == "application/pdf"
    else:
        assert (answer.status_code, answer.json()["code"]) == (406, "not_acceptable")
