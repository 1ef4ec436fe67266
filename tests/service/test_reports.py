"""Reports after the expedition as the service answers them, on plans that were solved for real."""

import csv
import io
from html import escape

import pytest

from api_schema.examples import SMALLEST_REQUEST
from service.routes.report_answers import FORMS
from service.routes.reports import EXAMPLE_REPORT

WAIT = {"Prefer": "wait=50"}
LOST = {
    "at": {"day": 2, "moment": "evening"},
    "wait_nights": 1,
    "lost": [{"place": "camp-1", "unit_id": "all/storm", "count": 1}],
    "letting_go": [
        {"reserve": kind, "reason": "we sit in the storm"} for kind in ("storm", "descent")
    ],
}


def solve(caller, request):
    """The plan of a request."""
    answer = caller.post("/v1/plans", json=request, headers=WAIT)
    assert answer.status_code == 201, answer.text
    assert answer.json()["outcome"]["outcome"] == "solved"
    return answer.json()


@pytest.fixture(scope="module")
def plan(caller):
    """The plan of the smallest request."""
    return solve(caller, SMALLEST_REQUEST)


@pytest.fixture(scope="module")
def replan(caller, plan):
    """Its re-plan after a night of storm, with one storm set lost."""
    answer = caller.post(f"/v1/plans/{plan['plan_id']}/replans", json=LOST, headers=WAIT)
    assert answer.status_code == 201, answer.text
    assert answer.json()["outcome"]["outcome"] == "solved", answer.text
    return answer.json()


def report(caller, plan, body, **query):
    """The answer to a report on a plan."""
    return caller.post(f"/v1/plans/{plan['plan_id']}/reports", json=body, params=query)


def test_the_example_of_the_description_is_answered(caller, plan):
    """8 bottles of 750 mL less 1 full and 300 mL are 4950 mL in 15 person-nights."""
    answer = report(caller, plan, EXAMPLE_REPORT)
    assert answer.status_code == 200, answer.text
    told = answer.json()
    taken = {one["unit_id"]: one["count"] for one in plan["outcome"]["plan"]["taken_along"]}
    assert told["fuel"][0]["used_ml"] == (taken["all/bottle"] - 1) * 750 - 300
    assert told["fuel"][0]["person_nights"] == 15
    assert told["night_sets"][0]["used"] == taken["all/low"] - 1
    assert told["remarks"] == EXAMPLE_REPORT["remarks"]
    assert told["cautions"] == plan["outcome"]["cautions"]


def test_the_next_request_is_planned_with_the_rates(caller, plan):
    """A request with the members of `next_request` is solved, with the fuel that was used."""
    body = {"containers": EXAMPLE_REPORT["containers"], "hours": EXAMPLE_REPORT["hours"]}
    told = report(caller, plan, body).json()
    merged = SMALLEST_REQUEST | {"conditions": told["next_request"]["conditions"]}
    merged["route"] = SMALLEST_REQUEST["route"] | told["next_request"]["route"]
    used = solve(caller, merged)["outcome"]["plan"]["used"]
    # 4950 mL in 15 person-nights are 330 mL, 990 mL a night, and 12 % of margin on top.
    assert all(990 * 1.12 <= night["fuel_ml"] <= 1015 * 1.12 for night in used)
    assert {rate["pointer"] for rate in told["rates"]} == {
        "/conditions/stove_efficiency",
        "/conditions/travel_factor",
        "/route/legs/0/hours_outbound",
    }


def test_a_report_on_a_replan_knows_what_the_line_lost(caller, plan, replan):
    """A night more was spent than first planned, and a lost storm set was not eaten."""
    body = {"night_sets": [{"unit_id": "all/storm", "bags": 2}]}
    told = report(caller, replan, body).json()
    assert told["first_plan_id"] == plan["plan_id"]
    assert sum(row["planned_first"] for row in told["nights"]) == 15
    assert sum(row["spent"] for row in told["nights"]) == 18
    storm = next(row for row in told["night_sets"] if row["unit_id"] == "all/storm")
    assert (storm["taken"], storm["gone"], storm["home"], storm["used"]) == (6, 1, 2, 3)
    assert told["counted_otherwise"] == []


def test_a_report_on_a_line_without_its_middle_knows_the_first_plan_and_every_count(
    caller, plan, replan
):
    """The plan of the second of three counts is deleted; what the first one said still counts."""
    line = [replan]
    for day in (3, 4):
        state = {"at": {"day": day, "moment": "evening"}, "letting_go": LOST["letting_go"]}
        address = f"/v1/plans/{line[-1]['plan_id']}/replans"
        line.append(caller.post(address, json=state, headers=WAIT).json())
        assert line[-1]["outcome"]["outcome"] == "solved"
    body = {"night_sets": [{"unit_id": "all/storm", "bags": 2}]}
    whole = report(caller, line[-1], body).json()
    assert caller.delete(f"/v1/plans/{line[1]['plan_id']}").status_code == 204
    told = report(caller, line[-1], body | {"remarks": ["without its middle"]}).json()
    assert told["first_plan_id"] == plan["plan_id"]
    assert sum(row["planned_first"] for row in told["nights"]) == 15
    for part in ("nights", "night_sets", "counted_otherwise"):
        assert told[part] == whole[part]


def test_more_than_the_line_left_is_a_fault(caller, replan):
    """Of 6 storm sets one is lost: 6 at home are refused at their place, 5 are not."""
    body = {"night_sets": [{"unit_id": "all/storm", "bags": 6}]}
    answer = report(caller, replan, body)
    assert answer.status_code == 422
    assert [(one["pointer"], one["code"]) for one in answer.json()["errors"]] == [
        ("/night_sets/0", "more_than_there_is")
    ]
    body["night_sets"][0]["bags"] = 5
    assert report(caller, replan, body).status_code == 200


def test_a_report_reads_as_a_table(caller, plan):
    """Each line of CSV has the part, the figures, and the cautions of the plan."""
    answer = report(caller, plan, EXAMPLE_REPORT | {"remarks": ["=1+1"]}, format="csv")
    assert answer.headers["content-type"].startswith("text/csv")
    rows = list(csv.DictReader(io.StringIO(answer.text)))
    parts = dict.fromkeys(row["part"] for row in rows)
    assert list(parts) == ["nights", "food", "containers", "fuel", "hours", "rate", "remark"]
    fuel = next(row for row in rows if row["part"] == "fuel")
    assert (fuel["unit"], fuel["used"]) == ("mL", "4950")
    assert all("fuel_use" in row["cautions"] for row in rows)
    assert rows[-1]["remark"] == "'=1+1"


def test_a_report_is_a_sheet_to_print(caller, plan):
    """HTML has what the report says, the tables, the remarks and the cautions, all escaped."""
    answer = report(caller, plan, EXAMPLE_REPORT | {"remarks": ["<b>cold</b>"]}, format="html")
    assert answer.headers["content-type"].startswith("text/html")
    assert "default-src 'none'" in answer.headers["content-security-policy"]
    assert "Planned against used" in answer.text
    assert "4950 mL used" in answer.text
    assert "Rates for the next request" in answer.text
    assert "&lt;b&gt;cold&lt;/b&gt;" in answer.text
    assert plan["outcome"]["cautions"][0]["text"] in answer.text


def test_a_report_stays_with_its_plan_in_every_form(caller, plan):
    """It is listed, and read again as it was answered; the same body again is the same report."""
    body = EXAMPLE_REPORT | {"remarks": ["We were slow."]}
    made = report(caller, plan, body)
    told, address = made.json(), made.headers["content-location"]
    assert address == f"/v1/plans/{plan['plan_id']}/reports/{told['report_id']}"
    assert caller.get(address).json() == told
    again = report(caller, plan, body, format="csv")
    assert again.headers["content-location"] == address
    assert caller.get(address, params={"format": "csv"}).content == again.content
    assert "We were slow." in caller.get(address, params={"format": "html"}).text
    listed = caller.get(f"/v1/plans/{plan['plan_id']}/reports").json()["reports"]
    assert listed[0] == {name: told[name] for name in ("report_id", "plan_id", "stored_at", "say")}
    assert len({one["report_id"] for one in listed}) == len(listed)
    paths = caller.get("/openapi.json").json()["paths"]
    for path, method in (("", "post"), ("/{report_id}", "get")):
        answered = paths[f"/v1/plans/{{plan_id}}/reports{path}"][method]["responses"]["200"]
        assert answered["content"].keys() >= FORMS[200]["content"].keys()
    nobodys = caller.get(f"/v1/plans/{plan['plan_id']}/reports/report_{'0' * 26}")
    assert (nobodys.status_code, nobodys.json()["code"]) == (404, "not_found")


def test_the_history_of_a_trip_ends_with_what_was_used(caller, plan, replan):
    """The line of a re-plan and its sheet have the reports on it and on the plans before it."""
    on_first = report(caller, plan, {"remarks": ["early"]}).json()
    on_last = report(caller, replan, {"remarks": ["late"]}).json()
    line = caller.get(f"/v1/plans/{replan['plan_id']}/history").json()
    told = [one["report_id"] for one in line["reports"]]
    assert told[0] == on_last["report_id"]
    assert on_first["report_id"] in told
    first = caller.get(f"/v1/plans/{plan['plan_id']}/history").json()
    assert on_last["report_id"] not in [one["report_id"] for one in first["reports"]]
    sheet = caller.get(f"/v1/plans/{replan['plan_id']}/pages", params={"sheet": "history"}).text
    assert "After the expedition" in sheet
    assert escape(on_last["say"][0]) in sheet
    assert "Re-plans from here on" not in sheet


def test_a_report_goes_with_its_plan(caller):
    """Deleting the plan deletes what was reported on it: the address is 404, the line is empty."""
    made = solve(caller, SMALLEST_REQUEST | {"reference": "to be deleted"})
    address = report(caller, made, EXAMPLE_REPORT).headers["content-location"]
    assert caller.get(address).status_code == 200
    assert caller.delete(f"/v1/plans/{made['plan_id']}").status_code == 204
    assert caller.get(address).status_code == 404


def test_a_plan_that_is_not_there_has_no_report(caller):
    """The answer is 404 before the body is read."""
    answer = caller.post(f"/v1/plans/plan_{'0' * 26}/reports", content=b"{")
    assert answer.status_code == 404


def test_a_body_that_is_no_object_is_refused(caller, plan):
    """A list is no report, and neither is a member that nobody knows."""
    assert report(caller, plan, []).status_code == 422
    answer = report(caller, plan, {"leftovers": []})
    assert answer.json()["errors"][0]["code"] == "unknown_field"
