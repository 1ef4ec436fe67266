"""Every route that begins work answers in one way, and the description says so."""

import json
import threading
import time

import pytest
from fastapi.testclient import TestClient

from service.app import ROUTES, create_app
from service.http.body_room import BodyRoom
from service.http.openapi import openapi_document
from service.routes.waiting import work_answer
from tests.service.fake_translation import TRANSLATION

HEADERS = {"Content-Type": "application/json", "Prefer": "wait=30"}
SLEEP = {"order": "sleep", "seconds": 9}
COMPARED = {"base": SLEEP, "variants": [{"name": "longer", "patch": {"seconds": 8}}]}


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
    """Whatever answers 202 says which headers come with it, and when to read again."""
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
        name: {"201": both, "202": {*both, "Retry-After"}}
        for name in ("create_plan", "create_replan", "create_comparison", "create_stress_test")
    }


@pytest.mark.parametrize(("address", "body"), [("plans", SLEEP), ("comparisons", COMPARED)])
def test_whoever_waits_for_an_outcome_leaves_room_for_other_bodies(settings, address, body):
    """There is room for one body; the next is taken while the first waits for a plan."""
    app = create_app(settings, TRANSLATION)
    sent = json.dumps(body).encode()
    size = len(sent)
    room = BodyRoom(app, room_bytes=size, file_room_bytes=1, share_bytes=size)
    answers = []
    with TestClient(room) as caller:

        def wait() -> None:
            answers.append(caller.post(f"/v1/{address}", content=sent, headers=HEADERS).status_code)

        waiting = threading.Thread(target=wait)
        waiting.start()
        try:
            until = time.monotonic() + 6
            while not caller.get("/v1/plans").json()["plans"] and time.monotonic() < until:
                time.sleep(0.01)
            while (check := caller.post("/v1/plan-checks", json={}).status_code) == 503:
                if time.monotonic() > until:
                    break
                time.sleep(0.01)
            assert (check, answers) == (200, [])
        finally:
            app.state.wiring.completions.close()
            waiting.join(20)
    assert answers == [202]
