"""Every question of planning has its call in the guide, and every call answers it."""

import copy
import csv
import html
import json
from collections.abc import Iterator
from typing import Any

import pytest
from fastapi.testclient import TestClient

from api_schema.examples import SMALLEST_REQUEST
from service.app import create_app
from service.reports.questions import Question, askers, questions_page
from service.settings import Settings
from service.translation import TRANSLATION

QUESTIONS = [question for asker in askers() for question in asker.questions]
FLIGHTS = [
    {
        "flight_id": f"{way}-{number}",
        "direction": f"fly_{way}",
        "payload": "900 kg",
        "seats": 3,
        "fuel_with_people": True,
    }
    for way in ("in", "out")
    for number in (1,)
]
REQUEST = SMALLEST_REQUEST | {"reference": "questions", "flights": FLIGHTS}
MAY_BE_EMPTY = {27}
"""Questions whose answer for the smallest plan may be that nothing is to be told."""


@pytest.fixture(scope="module")
def caller(tmp_path_factory) -> Iterator[TestClient]:
    """A caller of the service as it is run."""
    settings = Settings(database=tmp_path_factory.mktemp("data") / "plans.sqlite3")
    with TestClient(create_app(settings, TRANSLATION)) as client:
        yield client


@pytest.fixture(scope="module")
def known(caller) -> dict[str, str]:
    """A solved plan that was released, a re-plan of it, and the food that its first cache holds."""
    wait = {"Prefer": "wait=55"}
    plan = caller.post("/v1/plans", json=REQUEST, headers=wait).json()
    address = f"/v1/plans/{plan['plan_id']}"
    released = caller.post(f"{address}/release", json={"released_by": "desk"})
    assert released.status_code == 200, released.text
    counted = {"at": {"day": 1, "moment": "evening"}}
    replan = caller.post(f"{address}/replans", json=counted, headers=wait).json()
    stock = plan["outcome"]["plan"]["stock"]
    cached = next(one["units"] for one in stock if (one["day"], one["place"]) == (1, "camp-1"))
    food = next(unit["unit_id"] for unit in cached if unit["unit_id"].startswith("all/"))
    return {"plan_id": plan["plan_id"], "replan_id": replan["plan_id"], "cached food": food}


def filled(part: Any, known: dict[str, str]) -> Any:
    """A body with the placeholders of the guide replaced."""
    if isinstance(part, dict):
        return {name: filled(value, known) for name, value in part.items()}
    if isinstance(part, list):
        return [filled(value, known) for value in part]
    if part == "the request":
        return REQUEST
    if part == "the gear, pot up to camp-1":
        gear = copy.deepcopy(REQUEST["gear"])
        next(item for item in gear if item["item_id"] == "pot")["up_to"] = "camp-1"
        return gear
    return known.get(part, part) if isinstance(part, str) else part


def found(answer: Any, way: list[str]) -> list[Any]:
    """What stands at the end of a way into an answer."""
    if not way:
        return [answer]
    step, rest = way[0], way[1:]
    part = answer.get(step.removesuffix("[]")) if isinstance(answer, dict) else None
    if step.endswith("[]"):
        return [value for one in part or () for value in found(one, rest)]
    return [] if part is None else found(part, rest)


def test_the_guide_has_every_question_once():
    """39 questions of the trade, and those of the smallest and the largest, numbered in order."""
    numbers = [question.number for question in QUESTIONS]
    assert numbers == list(range(1, len(numbers) + 1))
    assert len(numbers) >= 40


def test_the_page_has_every_call():
    """What is written in the guide can be read in a browser."""
    page = questions_page()
    assert page.count("<tr><td>") == len(QUESTIONS)
    assert "/v1/comparisons" in page


def test_the_page_shows_how_a_call_is_made():
    """The commands of the guide, which a test runs, stand on the page as they are written there."""
    page = html.unescape(questions_page())
    shown = page[page.index("<pre>") + 5 : page.index("</pre>")]
    assert shown.startswith("request=$(cat examples/smallest-request.json)\n")
    assert "http://localhost:8000/v1/comparisons" in shown


@pytest.mark.slow
@pytest.mark.parametrize("question", QUESTIONS, ids=lambda one: str(one.number))
def test_each_call_answers_its_question(caller, known, question: Question):
    """The call succeeds, and what the last column names is in its answer."""
    method, _, address = question.call.partition(" ")
    for name in ("plan_id", "replan_id"):
        address = address.replace("{" + name + "}", known[name])
    body = filled(json.loads(question.body), known) if question.body else None
    answer = caller.request(method, address, json=body, headers={"Prefer": "wait=55"})
    assert answer.status_code in (200, 201), answer.text
    kind, _, column = question.read.partition(" ")
    if kind == "csv":
        rows = list(csv.DictReader(answer.text.splitlines()))
        assert rows
        assert any(row[column] for row in rows)
        return
    values = found(answer.json(), question.read.split("."))
    assert values or question.number in MAY_BE_EMPTY, answer.text[:2000]
