"""The wire's documents: their schemas are valid, strict, explained, and agree with the examples."""

import json
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from pydantic import ValidationError

from api_schema.plan_answer import FailedAnswer, InfeasibleAnswer, NoPlanInTimeAnswer, SolvedAnswer
from api_schema.plan_check import PlanCheckAnswer, PlanCheckRequest
from api_schema.plan_request import PlanRequest
from api_schema.problem_details import ProblemDetails
from api_schema.reference import LimitsAnswer, RulesAnswer, UnitsAnswer
from api_schema.strict import StrictModel
from solver.problem import LegMode, NeedKind, PlaceKind, ReserveKind

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.json"))

REQUESTS = (PlanRequest, PlanCheckRequest)
ANSWERS = (
    SolvedAnswer,
    InfeasibleAnswer,
    NoPlanInTimeAnswer,
    FailedAnswer,
    PlanCheckAnswer,
    ProblemDetails,
    RulesAnswer,
    UnitsAnswer,
    LimitsAnswer,
)
OUTCOMES = (SolvedAnswer, InfeasibleAnswer, NoPlanInTimeAnswer, FailedAnswer)


def objects_in(schema: dict[str, Any]) -> list[dict[str, Any]]:
    """All object schemas of a document."""
    return [schema, *schema.get("$defs", {}).values()]


@pytest.mark.parametrize("model", REQUESTS + ANSWERS, ids=lambda model: model.__name__)
def test_schemas_are_valid(model: type[StrictModel]) -> None:
    """Each document's schema is a valid one of JSON Schema 2020-12."""
    Draft202012Validator.check_schema(model.model_json_schema())


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_examples_match_the_schema(path: Path) -> None:
    """Every example is valid by the published schema too, and not only by our reader."""
    schema = PlanRequest.model_json_schema()
    document = json.loads(path.read_text(encoding="utf-8"))
    assert list(Draft202012Validator(schema).iter_errors(document)) == []


def test_requests_take_no_unknown_field() -> None:
    """No object of a plan request lets an unknown field pass, a former plan's trips included."""
    passing = {
        schema["title"]
        for schema in objects_in(PlanRequest.model_json_schema())
        if schema.get("additionalProperties") is not False
    }
    assert passing == set()


def test_requests_bound_every_list_and_map() -> None:
    """Every list of a request has a greatest length, and every map a greatest size."""
    unbounded = []

    def walk(node: object, where: str) -> None:
        if isinstance(node, dict):
            if node.get("type") == "array" and "maxItems" not in node:
                unbounded.append(where)
            if isinstance(node.get("additionalProperties"), dict) and "maxProperties" not in node:
                unbounded.append(where)
            for name, value in node.items():
                walk(value, f"{where}/{name}")
        elif isinstance(node, list):
            for index, value in enumerate(node):
                walk(value, f"{where}/{index}")

    for model in REQUESTS:
        walk(model.model_json_schema(), model.__name__)
    assert unbounded == []


def test_requests_bound_every_number() -> None:
    """Every number of a request has a least and a greatest value."""
    unbounded = []

    def walk(node: object, where: str) -> None:
        if isinstance(node, dict):
            if node.get("type") in {"integer", "number"} and not {"minimum", "maximum"} <= set(
                node
            ):
                unbounded.append(where)
            for name, value in node.items():
                walk(value, f"{where}/{name}")
        elif isinstance(node, list):
            for index, value in enumerate(node):
                walk(value, f"{where}/{index}")

    for model in REQUESTS:
        walk(model.model_json_schema(), model.__name__)
    assert unbounded == []


def test_every_object_says_what_it_is() -> None:
    """Every object of every document has a description."""
    for model in REQUESTS + ANSWERS:
        for schema in objects_in(model.model_json_schema(mode="serialization")):
            assert schema.get("description"), schema.get("title")


@pytest.mark.parametrize("model", OUTCOMES, ids=lambda model: model.__name__)
def test_outcomes_have_no_defaults(model: type[StrictModel]) -> None:
    """Every field of an outcome is always there: null where there is nothing to say."""
    for schema in objects_in(model.model_json_schema(mode="serialization")):
        assert set(schema["required"]) == set(schema["properties"]), schema["title"]


@pytest.mark.parametrize(
    ("path", "kind"),
    [
        (("PlaceRequest", "kind"), PlaceKind),
        (("LegRequest", "mode"), LegMode),
        (("ItemRequest", "needed"), NeedKind),
        (("ReserveRequest", "kind"), ReserveKind),
    ],
)
def test_words_of_the_wire_are_the_problems(path: tuple[str, str], kind: Any) -> None:
    """The wire's choices are the same words as those of the problem, none left out."""
    model, field = path
    schema = PlanRequest.model_json_schema()["$defs"][model]["properties"][field]
    choices = schema.get("enum") or schema["anyOf"][0]["enum"]
    assert sorted(choices) == sorted(member.value for member in kind)


def test_edited_plan_takes_an_answers_fields() -> None:
    """A plan sent for a check may carry the totals of an answer; a request may not."""
    load = {"person_id": "lead", "pack": [], "pack_kg": 3.2, "load_fraction": 0.5}
    trip = {"day": 1, "step": 1, "from": "a", "to": "b", "loads": [load], "mode": "sled"}
    request = {
        "route": {"places": [{"place_id": "a", "elevation": "1 m"}], "legs": []},
        "calendar": [["a"]],
        "roster": [{"person_id": "lead", "pack_cap": "20 kg"}],
    }
    plan = {"trips": [trip], "days": []}
    assert (
        PlanCheckRequest.model_validate({"request": request, "plan": plan}).plan.trips[0].day == 1
    )
    with pytest.raises(ValidationError, match="extra"):
        PlanCheckRequest.model_validate({"request": request | {"trips": []}, "plan": plan})
