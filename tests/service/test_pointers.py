"""Every pointer of a fault leads to a place of the body that was sent, whatever takes the body."""

from __future__ import annotations

import copy
import json
from collections.abc import Iterator
from typing import Any, get_args

import pytest

from api_schema.examples import SMALLEST_COMPARISON, SMALLEST_REQUEST
from api_schema.named_edit import NAMES_OF_EDITS, NamedEdit
from service.write_openapi import PUBLISHED

DESCRIPTION: dict[str, Any] = json.loads(PUBLISHED.read_text(encoding="utf-8"))
JSON = "application/json"
WITH_A_BODY = [
    (method.upper(), path)
    for path, methods in DESCRIPTION["paths"].items()
    for method, operation in methods.items()
    if JSON in operation.get("requestBody", {}).get("content", {})
]


@pytest.fixture(scope="module")
def plan(caller) -> dict[str, Any]:
    """A solved plan of the smallest request."""
    answer = caller.post("/v1/plans", json=SMALLEST_REQUEST, headers={"Prefer": "wait=50"})
    assert answer.json()["outcome_kind"] == "solved", answer.text
    return answer.json()


def leads_somewhere(pointer: str, document: Any) -> bool:
    """Whether each step of a JSON Pointer (RFC 6901) is in the document."""
    here = document
    for step in pointer.split("/")[1:]:
        name = step.replace("~1", "/").replace("~0", "~")
        if isinstance(here, list):
            if not name.isdecimal() or int(name) >= len(here):
                return False
            here = here[int(name)]
        elif isinstance(here, dict) and name in here:
            here = here[name]
        else:
            return False
    return True


def asked(method: str, path: str) -> dict[str, Any]:
    """What the description says of a body: its schema and an example."""
    content = DESCRIPTION["paths"][path][method.lower()]["requestBody"]["content"][JSON]
    name = content["schema"]["$ref"].rpartition("/")[2]
    examples = [one["value"] for one in content["examples"].values()]
    return {
        "schema": DESCRIPTION["components"]["schemas"][name],
        "example": max(examples, key=lambda one: len(json.dumps(one))),
    }


def example_of(method: str, path: str, plan: dict[str, Any]) -> dict[str, Any]:
    """A body that is in order for a route, deep enough to be spoilt."""
    if path == "/v1/plan-checks":
        return {"request": SMALLEST_REQUEST, "plan": plan["outcome"]["plan"]}
    if path == "/v1/plans/{plan_id}/reports":
        return {"night_sets": [{"unit_id": "meal", "eaten": 1}]}
    if path == "/v1/plans/{plan_id}/stress-tests":
        return {"odds": {"storms": [{"place": "camp-1", "share": 0.2}]}}
    return asked(method, path)["example"]


def send(caller, method: str, path: str, plan: dict[str, Any], document: object) -> Any:
    """The answer to a body."""
    address = path.replace("{plan_id}", plan["plan_id"]).replace("{entry_id}", "ours")
    return caller.request(method, address, json=document)


def assert_all_lead_somewhere(answer: Any, document: object) -> None:
    """Each pointer of the answer resolves in the document."""
    faults = answer.json().get("errors", [])
    assert faults, answer.text
    lost = [one for one in faults if not leads_somewhere(one["pointer"], document)]
    assert not lost, lost


def deepest(document: Any, way: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    """The way to each leaf of a document."""
    if isinstance(document, dict | list) and document:
        parts = document.items() if isinstance(document, dict) else enumerate(document)
        for step, part in parts:
            yield from deepest(part, (*way, step))
    else:
        yield way


def with_value(document: Any, way: tuple[str | int, ...], value: object) -> Any:
    """A copy of the document with another value at a place."""
    spoilt = copy.deepcopy(document)
    here = spoilt
    for step in way[:-1]:
        here = here[step]
    here[way[-1]] = value
    return spoilt


@pytest.mark.parametrize(("method", "path"), WITH_A_BODY)
def test_an_empty_body_is_told_what_it_lacks(caller, plan, method, path):
    """A missing field is told at the place that lacks it, and named in the text."""
    answer = send(caller, method, path, plan, {})
    required = asked(method, path)["schema"].get("required", [])
    if required or answer.status_code == 422:
        assert answer.status_code == 422, answer.text
        assert_all_lead_somewhere(answer, {})
        told = " ".join(one["detail"] for one in answer.json()["errors"])
        assert all(name in told for name in required), told


@pytest.mark.parametrize(("method", "path"), WITH_A_BODY)
def test_a_wrong_value_deep_in_a_body_is_told_at_its_place(caller, plan, method, path):
    """An object where none belongs, at the deepest place."""
    example = example_of(method, path, plan)
    way = max(deepest(example), key=len)
    spoilt = with_value(example, way, {"surprise": [{}]})
    answer = send(caller, method, path, plan, spoilt)
    assert answer.status_code == 422, answer.text
    assert_all_lead_somewhere(answer, spoilt)


def test_each_named_edit_is_listed_once():
    """The names that pointers leave out, and a fault lists, are those of the union."""
    union = get_args(get_args(NamedEdit)[0])
    assert [get_args(one.model_fields["edit"].annotation)[0] for one in union] == [*NAMES_OF_EDITS]


EDITS = [
    {"edit": "without", "person_id": "third", "x": 1},
    {"edit": "add", "person": "fourth"},
    {"edit": "cap", "person_id": "lead", "pack_cap": "30"},
    {"edit": "count", "item_id": "stove", "count": "x"},
    {"edit": "count", "item_id": "stove"},
    {"edit": "reserve", "nights": -1},
    {"edit": "calendar", "calendar": "x"},
    {"edit": "calendar", "calendar": [{"moves": [{"to": 1}]}]},
    {"edit": "sled", "sled_id": "red", "sled": {"tare": "3"}},
    {"edit": "start_date", "start_date": "1.1.2027"},
    {"edit": "capp", "person_id": "lead"},
    {"edit": 5},
    {"edit": None},
    {"edit": []},
    {},
    "without",
]


@pytest.mark.parametrize("edit", EDITS, ids=str)
def test_a_faulty_named_edit_is_told_at_its_place(caller, edit):
    """No name of an edit stands in a pointer unless it is a name in the body."""
    document = SMALLEST_COMPARISON | {"variants": [{"name": "one", "edits": [edit]}]}
    answer = caller.post("/v1/comparisons", json=document)
    assert answer.status_code == 422, answer.text
    assert_all_lead_somewhere(answer, document)
    for one in answer.json()["errors"]:
        assert one["pointer"].startswith("/variants/0/edits/0"), one
        assert "published schema" not in one["detail"], one


@pytest.mark.parametrize(
    ("edit", "pointer", "code", "words"),
    [
        ({"edit": "cap", "pack_cap": "30"}, "/pack_cap", "no_unit", "unit"),
        ({"edit": "capp"}, "/edit", "not_a_choice", "Did you mean cap?"),
        ({"edit": 5}, "/edit", "not_a_choice", "'without'"),
        ({"person_id": "lead"}, "", "missing", "edit: "),
        ({"edit": "calendar", "calender": []}, "/calender", "unknown_field", "calendar?"),
        ("without", "", "wrong_type", "braces"),
    ],
)
def test_a_faulty_named_edit_is_told_what_would_help(caller, edit, pointer, code, words):
    """Which edits there are, and which one may be meant."""
    document = SMALLEST_COMPARISON | {"variants": [{"name": "one", "edits": [edit]}]}
    answer = caller.post("/v1/comparisons", json=document)
    told = [
        one["detail"]
        for one in answer.json()["errors"]
        if (one["pointer"], one["code"]) == (f"/variants/0/edits/0{pointer}", code)
    ]
    assert any(words in detail for detail in told), answer.text


def test_a_row_of_a_comparison_points_into_the_body(caller):
    """Faults of one variant stand in its row, with pointers that resolve too."""
    broken = {"name": "broken", "patch": {"library": {"menu": {"entry_id": "none"}}}}
    document = SMALLEST_COMPARISON | {"variants": [broken]}
    answer = caller.post("/v1/comparisons", json=document)
    assert answer.status_code == 202, answer.text
    faults = [one for row in answer.json()["rows"] for one in row["errors"] or []]
    assert faults
    assert all(leads_somewhere(one["pointer"], document) for one in faults), faults
