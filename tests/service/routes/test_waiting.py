"""Every route that begins work answers in one way, and the description says so."""

import pytest

from service.app import ROUTES
from service.http.openapi import openapi_document
from service.routes.waiting import work_answer


@pytest.mark.parametrize(
    ("final", "granted", "status", "headers"),
    [
        (True, None, 201, {"location": "/v1/x/1"}),
        (True, 5, 201, {"location": "/v1/x/1", "preference-applied": "wait=5"}),
        (False, None, 202, {"location": "/v1/x/1", "retry-after": "2"}),
        (
            False,
            0,
            202,
            {"location": "/v1/x/1", "retry-after": "2", "preference-applied": "wait=0"},
        ),
    ],
)
def test_an_answer_says_where_it_is_and_when_to_read_it_again(final, granted, status, headers):
    """201 is for what is final; a wait is confirmed if one was asked for, even one of 0 s."""
    answer = work_answer(b"{}", address="/v1/x/1", final=final, granted_seconds=granted)
    told = {name: value for name, value in answer.headers.items() if not name.startswith("content")}
    assert (answer.status_code, told, answer.body) == (status, headers, b"{}")


def test_every_route_that_begins_work_describes_its_headers():
    """Whatever answers 202 says that Location and Preference-Applied come with it."""
    described = {
        operation["operationId"]: {
            status: set(operation["responses"][status].get("headers", ()))
            for status in ("201", "202")
        }
        for path in openapi_document(ROUTES)["paths"].values()
        for operation in path.values()
        if "202" in operation["responses"] and "201" in operation["responses"]
    }
    both = {"Location", "Preference-Applied"}
    assert described == {
        name: {"201": both, "202": both}
        for name in ("create_plan", "create_replan", "create_comparison", "create_stress_test")
    }
