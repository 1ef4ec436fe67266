"""The description keeps the promises of the last released one."""

import copy
import json

import pytest

from service.http.sent_schemas import sent_schemas
from service.write_openapi import PUBLISHED
from tests.service.http.compatibility import RELEASED, breaks, reduced

NOW = json.loads(PUBLISHED.read_text(encoding="utf-8"))


def test_nothing_that_was_released_is_taken_away():
    """Clients made from the last released description work with this one."""
    released = json.loads(RELEASED.read_text(encoding="utf-8"))
    assert {"/v1/plans", "/v1/plan-checks", "/v1/requirements"} <= released["paths"].keys()
    assert breaks(released, NOW) == []


def without_path(document):
    """Take an address away."""
    del document["paths"]["/v1/units"]


def renamed(document):
    """Give an operation another id."""
    document["paths"]["/v1/units"]["get"]["operationId"] = "units"


def without_field(document):
    """Take a field of an answer away."""
    del document["components"]["schemas"]["PlanSummaryAnswer"]["properties"]["state"]


def optional_in_answers(document):
    """Let a field of an answer be missing."""
    document["components"]["schemas"]["PlanSummaryAnswer"]["required"].remove("state")


def required_in_requests(document):
    """Ask for a field of a request."""
    document["components"]["schemas"]["PersonRequest"]["required"].append("name")


def without_parameter(document):
    """Take a parameter away."""
    parameters = document["paths"]["/v1/plans"]["get"]["parameters"]
    parameters[:] = [p for p in parameters if p["name"] != "reference"]


def required_parameter(document):
    """Ask for a parameter."""
    document["paths"]["/v1/units"]["get"]["parameters"].append({"name": "x", "required": True})


def without_answer(document):
    """Take a status away."""
    del document["paths"]["/v1/plans"]["post"]["responses"]["201"]


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (without_path, "get /v1/units is gone"),
        (renamed, "get /v1/units has another operationId"),
        (without_field, "PlanSummaryAnswer.state is gone"),
        (optional_in_answers, "PlanSummaryAnswer.state may be missing now"),
        (required_in_requests, "PersonRequest.name is required now"),
        (without_parameter, "get /v1/plans takes no reference any more"),
        (required_parameter, "get /v1/units asks for x"),
        (without_answer, "post /v1/plans never answers 201 any more"),
    ],
)
def test_each_kind_of_break_is_found(change, words):
    """A planted break of each kind is told, alone, also against the reduced description."""
    changed = copy.deepcopy(NOW)
    change(changed)
    assert breaks(NOW, changed) == [words]
    assert breaks(reduced(NOW), changed) == [words]


def test_what_is_sent_is_told_from_what_is_answered():
    """Requests with all their parts are sent; answers are not."""
    sent = sent_schemas(NOW)
    assert {"PlanRequest", "PersonRequest", "EditedPlan"} <= sent
    assert not {"PlanSummaryAnswer", "ProblemDetails"} & sent


def test_answers_are_open_and_requests_are_closed():
    """An object of an answer may get fields; an unknown field of a request is a fault."""
    for name, schema in NOW["components"]["schemas"].items():
        if "properties" in schema:
            closed = schema.get("additionalProperties") is False
            assert closed is (name in sent_schemas(NOW)), name
