"""What binds a plan: the route, and its answer as JSON, as CSV and as a page."""

from __future__ import annotations

import csv
import json
from dataclasses import replace
from typing import Any

import pytest

from api_schema.limits_answer import LimitsThatBindAnswer
from service.reports.binding_limits import COLUMNS, binding_limits_table, trip_words
from service.routes.limits_that_bind import router
from service.screens.binding_limits_screen import binding_limits_screen

STEP = {
    "kind": "cap",
    "about": {"person": "lead"},
    "peak": None,
    "bound": None,
    "gain": None,
    "more_than_the_gap": False,
    "reason": None,
}
TOLD = LimitsThatBindAnswer.model_validate(
    {
        "plan_id": "plan_x",
        "cautions": [{"caution_id": "c1", "text": "Ropes <b>cut</b>."}],
        "peak": 0.95,
        "bound": 0.9125,
        "binding": [
            {
                "rule_id": "pack_cap",
                "person_id": "lead",
                "where": {"day": 2, "step": 1, "from_place": "road", "to_place": "camp"},
                "load_kg": 19.0,
                "cap_kg": 20.0,
                "load_fraction": 0.95,
            }
        ],
        "steps": [
            STEP
            | {
                "text": "raise the pack cap of lead by 1.0 kg",
                "verdict": "lowers",
                "peak": 0.905,
                "gain": 0.045,
                "more_than_the_gap": True,
            },
            STEP | {"text": "=1+1", "verdict": "no_plan", "reason": "Too <i>heavy</i>."},
            STEP | {"text": "one night more", "verdict": "not_tried"},
        ],
        "nothing_short_of": "raise the pack cap of lead by 1.0 kg",
        "nothing_lowers_the_peak": False,
        "not_tried": 1,
    }
)


@pytest.fixture
def asked(client, monkeypatch) -> Stand:
    """What is asked, of a plan that is stored as far as the route sees."""
    stand = Stand()
    client.app.state.wiring = replace(client.app.state.wiring, questions=stand)
    outcome = {"outcome": "solved", "plan": {"trips": []}, "bound": 0.9}
    path = "service.routes.limits_that_bind"
    monkeypatch.setattr(f"{path}.find_solved_outcome", lambda *_: outcome)
    monkeypatch.setattr(f"{path}.find_whole_request", lambda *_: {"title": "t"})
    return stand


class Stand:
    """Answers every question alike, and notes what was asked."""

    def __init__(self) -> None:
        self.asked: list[tuple[dict[str, Any], float]] = []

    def ask(self, document: dict[str, Any], *, seconds: float) -> bytes:
        """Note the question."""
        self.asked.append((document, seconds))
        return TOLD.model_dump_json().encode()

    def close(self) -> None:
        """Nothing to do."""


def test_a_plan_goes_to_the_child_with_its_request_and_its_bound(client, asked):
    """What is asked is the stored request, the plan and the bound, with the time asked for."""
    answer = client.get("/v1/plans/plan_x/limits-that-bind?seconds=5")
    assert (answer.status_code, answer.json()) == (200, TOLD.model_dump(mode="json"))
    ((question, seconds),) = asked.asked
    assert question["question"] == "limits_that_bind"
    assert (question["request"], question["plan"]) == ({"title": "t"}, {"trips": []})
    assert question["bound"] == 0.9
    assert seconds == 5.0
    assert json.dumps(question)


@pytest.mark.parametrize(
    ("query", "accept", "media_type"),
    [
        ("", "*/*", "application/json"),
        ("", "text/html,*/*;q=0.8", "text/html"),
        ("?format=csv", "text/html", "text/csv"),
        ("?format=html&seconds=2", "*/*", "text/html"),
        ("", "text/csv", "text/csv"),
    ],
)
def test_a_browser_gets_a_page_and_a_spreadsheet_a_table(client, asked, query, accept, media_type):
    """As Accept or `format` says; the table has a name and may begin with a byte-order mark."""
    address = f"/v1/plans/plan_x/limits-that-bind{query}"
    answer = client.get(address, headers={"Accept": accept})
    assert answer.status_code == 200
    assert answer.headers["content-type"].partition(";")[0] == media_type
    assert "Accept" in answer.headers["vary"]
    assert len(asked.asked) == 1
    if media_type == "text/csv":
        assert "plan_x-limits-that-bind.csv" in answer.headers["content-disposition"]
        marked = client.get(f"{address}{'&' if query else '?'}format=csv&byte_order_mark=true")
        assert query or marked.content == b"\xef\xbb\xbf" + answer.content


def test_the_table_has_caps_and_steps_and_runs_no_formula():
    """A line for each, under one header; text that a spreadsheet would run is defused."""
    rows = list(csv.DictReader(binding_limits_table(TOLD).as_csv().decode().splitlines()))
    assert tuple(rows[0]) == (*COLUMNS, "cautions")
    assert [row["line"] for row in rows] == ["cap", "step", "step", "step"]
    assert rows[0]["what"] == "pack_cap: day 2, step 1, road to camp"
    assert (rows[0]["load_kg"], rows[0]["cap_kg"]) == ("19.0", "20.0")
    assert (rows[1]["verdict"], rows[1]["gain"]) == ("lowers", "0.045")
    assert rows[2]["what"] not in ("=1+1", "")
    assert {row["cautions"] for row in rows} == {"c1"}
    assert trip_words({"flight": "f1"}) == ""


def test_the_page_says_what_binds_and_what_each_step_does():
    """The caps, the steps in words, the cheapest step that helps; foreign text stays text."""
    html = binding_limits_screen(TOLD).html.decode()
    assert "The peak load is 95.00 % of a cap. No plan has less than 91.25 %." in html
    assert "costs least in the field: raise the pack cap of lead by 1.0 kg." in html
    assert "1 of 3 steps were not tried in time." in html
    assert "day 2, step 1, road to camp" in html
    assert "19.00 kg" in html
    assert "+4.50" in html
    assert "Too &lt;i&gt;heavy&lt;/i&gt;." in html
    assert "Ropes &lt;b&gt;cut&lt;/b&gt;." in html


@pytest.mark.parametrize(
    ("nothing_lowers", "words"),
    [(True, "No single step lowers the peak."), (False, "Not every step was judged")],
)
def test_the_page_names_no_step_where_none_is_known_to_help(nothing_lowers, words):
    """It tells a proof from what was not judged."""
    members = {"nothing_short_of": None, "nothing_lowers_the_peak": nothing_lowers}
    assert words in binding_limits_screen(TOLD.model_copy(update=members)).html.decode()


def test_an_unknown_plan_and_too_much_time_are_refused(client):
    """404 for a plan that is not there, 422 for more seconds than anybody gets."""
    assert [route.path for route in router.routes] == ["/v1/plans/{plan_id}/limits-that-bind"]
    unknown = "plan_01m894y1x3y07966fb6kk0wj7j"
    assert client.get(f"/v1/plans/{unknown}/limits-that-bind").status_code == 404
    assert client.get(f"/v1/plans/{unknown}/limits-that-bind?seconds=999").status_code == 422
