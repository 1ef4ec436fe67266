"""Plans that name former ones, solved by the real solver: what is left when these are deleted."""

import json
from pathlib import Path

import pytest
from fastapi.testclient import TestClient

from api_schema.examples import SMALLEST_REQUEST
from service.app import create_app
from service.routes.replans import EXAMPLE_STATE
from service.settings import Settings
from service.translation import TRANSLATION

PERSON = "zqperson"
WAITING = {"Prefer": "wait=50"}


@pytest.fixture(scope="module")
def left(tmp_path_factory) -> dict:
    """What callers are told after the former plan was deleted, and what the files hold."""
    folder: Path = tmp_path_factory.mktemp("data")
    settings = Settings(database=folder / "plans.sqlite3")
    with TestClient(create_app(settings, TRANSLATION)) as caller:
        told = _told(caller)
    files = b"".join(file.read_bytes() for file in folder.glob("plans.sqlite3*"))
    return told | {"files": files}


def _told(caller: TestClient) -> dict:
    first = json.loads(json.dumps(SMALLEST_REQUEST).replace('"third"', f'"{PERSON}"'))
    former = caller.post("/v1/plans", json=first, headers=WAITING).json()["plan_id"]
    named = {"near_plan": {"plan_id": former}, "start_plan": {"plan_id": former}}
    asked = SMALLEST_REQUEST | {"options": named | {"seed": 3}}
    plan = caller.post("/v1/plans", json=asked, headers=WAITING).json()
    question = {"base": asked, "variants": [{"name": "same", "patch": {}}]}
    compared = caller.post("/v1/comparisons", json=question, headers=WAITING).json()
    address = f"/v1/plans/{plan['plan_id']}"
    tested = caller.post(f"{address}/stress-tests", json={"seconds": 2}, headers=WAITING).json()
    assert caller.delete(f"/v1/plans/{former}").status_code == 204
    return {
        "asked": asked,
        "plan": plan,
        "compared": compared,
        "tested": tested,
        "request": caller.get(f"{address}/request").json(),
        "check": caller.get(f"{address}/check").json(),
        "replan": caller.post(f"{address}/replans", json=EXAMPLE_STATE, headers=WAITING).json(),
        "again": caller.post("/v1/plans", json=asked).json(),
    }


def test_no_copy_of_a_deleted_plan_is_left(left):
    """Neither in a plan near to it, nor in its comparison, its stress test or its re-plan."""
    assert left["request"] == left["asked"]
    assert left["compared"]["rows"][0]["state"] == "done"
    assert left["tested"]["stress_test_id"]
    assert b'"near_plan"' in left["files"]
    assert PERSON.encode() not in left["files"]


def test_a_plan_near_to_a_deleted_one_is_as_readable_as_before(left):
    """Its closeness, its check under today's rules, and a plan of its rest."""
    goals = left["plan"]["outcome"]["goals"]
    assert [goal["value"] for goal in goals if goal["goal_id"] == "closeness"] != []
    assert left["check"]["check"]["passed"] is True
    assert left["replan"]["outcome"]["outcome"] == "solved"


def test_a_request_that_names_a_deleted_plan_is_told_so(left):
    """Sent again, each name of the deleted plan is a fault that says what to do."""
    words = "There is no plan with this id. If it was deleted, leave it out."
    found = {(fault["pointer"], fault["detail"]) for fault in left["again"]["errors"]}
    assert found == {
        ("/options/near_plan/plan_id", words),
        ("/options/start_plan/plan_id", words),
    }
