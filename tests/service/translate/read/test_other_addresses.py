"""A body at the wrong address, or with a wrapper around it, is told so."""

import itertools
import json
from pathlib import Path

import pytest
from pydantic import ValidationError

from api_schema.examples import (
    EMPTY_PLAN_CHECK,
    SMALLEST_CALENDARS,
    SMALLEST_COMPARISON,
    SMALLEST_REQUEST,
)
from service.errors import RequestFaults
from service.translate.read.other_addresses import ADDRESSES, misplaced
from service.translate.read.plan_checks import read_plan_check
from service.translate.read.requests import read_plan_request
from service.translate.read.wire_faults import wire_faults

MODELS = {model.__name__: model for model in ADDRESSES}
BODIES = {
    "PlanRequest": SMALLEST_REQUEST,
    "PlanCheckRequest": EMPTY_PLAN_CHECK,
    "CalendarsRequest": SMALLEST_CALENDARS,
    "ComparisonRequest": SMALLEST_COMPARISON,
    "ReplanRequest": {"at": {"day": 2, "moment": "evening"}, "wait_nights": 1},
    "ReplanCalendarsRequest": {"state": {"at": {"day": 2, "moment": "evening"}}, "days": 9},
    "TripReportRequest": {"gone": [], "remarks": "none"},
    "StressTestRequest": {"kinds": ["storm"], "seconds": 20},
    "ReleaseRequest": {"released_by": "operations desk"},
    "MessageRequest": {"text": "K7Q4MR D06EA"},
    "RouteToStore": {"route": {}},
    "GearListToStore": {"gear": [], "personal_kits": {}},
    "MenuToStore": {"menu": {}},
    "RosterToStore": {"roster": []},
}
WHOLE = "PlanRequest"
PARTS = ("RouteToStore", "GearListToStore", "MenuToStore", "RosterToStore")
"""What these hold are fields of a request, which lacks others then."""


def faults_of(model, body):
    """What is wrong with a body for a model."""
    with pytest.raises(ValidationError) as found:
        model.model_validate(body)
    return wire_faults(found.value, model)


def test_every_body_of_json_has_its_address():
    """The table has each model that the description names, at an address that takes it."""
    description = json.loads(Path("api_schema/openapi.v1.json").read_text())
    taken = {
        (content["schema"]["$ref"].rpartition("/")[2], f"{method.upper()} {path}")
        for path, operations in description["paths"].items()
        for method, operation in operations.items()
        for kind, content in operation.get("requestBody", {"content": {}})["content"].items()
        if kind == "application/json"
    }
    assert {(model.__name__, address) for model, address in ADDRESSES.items()} <= taken
    assert {name for name, _ in taken} == set(MODELS) == set(BODIES)


@pytest.mark.parametrize(
    ("sent", "here"),
    [
        pair
        for pair in itertools.permutations(BODIES, 2)
        if not (pair[0] in PARTS and pair[1] == WHOLE)
    ],
)
def test_a_body_at_the_wrong_address_is_told_the_right_one(sent, here):
    """Each unknown field at its top says where such a body is taken, and no other place."""
    details = [
        fault.detail
        for fault in faults_of(MODELS[here], BODIES[sent])
        if fault.code == "unknown_field" and fault.pointer.count("/") == 1
    ]
    assert details
    assert set(details) == {
        f"There is no such field. It belongs in the body of {ADDRESSES[MODELS[sent]]}."
    }


@pytest.mark.parametrize("name", BODIES)
@pytest.mark.parametrize("wrapper", ["data", "body", "payload"])
def test_a_wrapped_body_is_told_to_take_the_wrapper_away(name, wrapper):
    """The wrapper is the only fault, whatever its name: what it holds is not missing."""
    (fault,) = faults_of(MODELS[name], {wrapper: BODIES[name]})
    assert (fault.pointer, fault.code) == (f"/{wrapper}", "unknown_field")
    assert fault.detail == (
        "There is no such field. Take it away: what it holds belongs one level up."
    )


@pytest.mark.parametrize("wrapper", ["request", "plan_request", "data", "body"])
def test_a_wrapped_request_for_a_plan_has_this_one_fault(wrapper):
    """Nothing else is told of the whole request, though it is read on behind the fault."""
    with pytest.raises(RequestFaults) as refused:
        read_plan_request({wrapper: SMALLEST_REQUEST})
    (fault,) = refused.value.faults
    assert (fault.pointer, fault.code) == (f"/{wrapper}", "unknown_field")
    assert "Take it away" in fault.detail


def test_a_wrapped_plan_to_check_and_a_bare_request_are_told_so():
    """The route that reads both halves by itself says the same."""
    with pytest.raises(RequestFaults) as refused:
        read_plan_check({"data": EMPTY_PLAN_CHECK})
    (fault,) = refused.value.faults
    assert fault.pointer == "/data"
    assert "Take it away" in fault.detail
    with pytest.raises(RequestFaults) as refused:
        read_plan_check(SMALLEST_REQUEST)
    unknown = [fault for fault in refused.value.faults if fault.code == "unknown_field"]
    assert {fault.pointer for fault in unknown} == {f"/{name}" for name in SMALLEST_REQUEST}
    assert all("the body of POST /v1/plans." in fault.detail for fault in unknown)


@pytest.mark.parametrize(
    ("unknown", "missing"),
    [
        ({"base": {}}, ()),
        ({"rooster": []}, ("roster",)),
        ({"options2": {"time_limit": "5 s"}}, ()),
        ({"at": {}, "x": 1, "y": 2}, ("roster",)),
        ({"data": {"x": 1, "y": 2, "roster": []}}, ("roster",)),
        ({"plan": {}}, ("route", "calendar", "roster")),
    ],
)
def test_a_stray_field_tells_nothing_of_the_whole(unknown, missing):
    """One field more, a misspelt one, or a few of several bodies leave it open what was meant."""
    assert not misplaced(MODELS[WHOLE], unknown, missing).advice
