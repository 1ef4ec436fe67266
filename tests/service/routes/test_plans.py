"""Plans over HTTP: accepted, waited for, listed, viewed."""

import json
import time
from types import SimpleNamespace

import pytest

from api_schema.plan_request import PlanRequest
from service.errors import RequestFaults
from service.routes.near_plan import with_named_plans
from solver.rulebook import RULES

PLAN_ID = "plan_01m894y1x3y07966fb6kk0wj7j"
WITH_A_WAIT = {"Prefer": "wait=10"}


def test_a_request_is_accepted_with_its_address(client):
    """Without a preference the answer is 202 at once, with Location, Retry-After and the state."""
    answer = client.post(
        "/v1/plans", json={"reference": "booking 1", "order": "sleep", "seconds": 1}
    )
    plan = answer.json()
    assert answer.status_code == 202
    assert answer.headers["location"] == f"/v1/plans/{plan['plan_id']}"
    assert int(answer.headers["retry-after"]) > 0
    assert "preference-applied" not in answer.headers
    assert (plan["reference"], plan["outcome"]) == ("booking 1", None)
    assert client.get(answer.headers["location"]).json()["plan_id"] == plan["plan_id"]


def test_a_wait_is_answered_with_the_outcome(client):
    """With Prefer: wait=N a plan that is ready in time comes with 201 and its outcome."""
    answer = client.post("/v1/plans", json={}, headers=WITH_A_WAIT)
    assert answer.status_code == 201
    assert answer.headers["preference-applied"] == "wait=10"
    assert answer.json()["outcome"]["outcome"] == "solved"
    assert "location" in answer.headers


def test_a_wait_ends_at_its_time(client):
    """A plan that is not ready within the wait is answered with 202 when the wait is over."""
    begin = time.monotonic()
    answer = client.post(
        "/v1/plans", json={"order": "sleep", "seconds": 5}, headers={"Prefer": "wait=1"}
    )
    assert 1 <= time.monotonic() - begin < 2
    assert (answer.status_code, answer.json()["state"]) == (202, "running")
    assert answer.headers["preference-applied"] == "wait=1"


def test_a_stop_lets_who_waits_go(client):
    """A caller that waits is answered with 202 as soon as the service begins to stop."""
    wiring = client.app.state.wiring
    wiring.completions.close()
    begin = time.monotonic()
    answer = client.post("/v1/plans", json={"order": "sleep", "seconds": 5}, headers=WITH_A_WAIT)
    assert answer.status_code == 202
    assert time.monotonic() - begin < 2


def test_a_failed_plan_is_read_with_200(client):
    """A plan whose solve failed is no HTTP error: its outcome tells."""
    plan_id = client.post("/v1/plans", json={"order": "fault"}, headers=WITH_A_WAIT).json()[
        "plan_id"
    ]
    answer = client.get(f"/v1/plans/{plan_id}")
    assert (answer.status_code, answer.json()["state"]) == (200, "failed")


def test_the_list_is_paged_from_the_newest(client):
    """Pages of two go through five plans from the newest to the oldest, each once."""
    made = []
    for _ in range(5):
        made.append(client.post("/v1/plans", json={}).json()["plan_id"])
        time.sleep(0.002)
    seen, sizes, cursor = [], [], None
    while True:
        query = {"limit": 2} | ({} if cursor is None else {"cursor": cursor})
        page = client.get("/v1/plans", params=query).json()
        seen += [plan["plan_id"] for plan in page["plans"]]
        sizes.append(len(page["plans"]))
        cursor = page["next_cursor"]
        if cursor is None:
            break
    assert seen == made[::-1]
    assert sizes == [2, 2, 1]


def test_a_page_that_is_just_full_is_the_last(client):
    """A list of as many plans as the page holds has no next page."""
    for _ in range(2):
        client.post("/v1/plans", json={})
    assert client.get("/v1/plans?limit=2").json()["next_cursor"] is None


def test_plans_are_found_by_their_reference(client):
    """A reference selects its plans only, whatever characters it is made of."""
    strange = "b/1 \u2744 %00' OR 1=1 --"
    wanted = client.post("/v1/plans", json={"reference": strange}).json()["plan_id"]
    client.post("/v1/plans", json={"reference": "other"})
    client.post("/v1/plans", json={})
    found = client.get("/v1/plans", params={"reference": strange}).json()["plans"]
    assert [plan["plan_id"] for plan in found] == [wanted]


@pytest.mark.parametrize("view", ["loads", "stock"])
def test_a_view_of_an_unfinished_plan_says_so(client, view):
    """A view asked for too early is a conflict that may be tried again."""
    plan_id = client.post("/v1/plans", json={"order": "sleep", "seconds": 5}).json()["plan_id"]
    answer = client.get(f"/v1/plans/{plan_id}/{view}")
    assert (answer.status_code, answer.json()["code"]) == (409, "no_result_yet")
    assert "retry-after" in answer.headers


@pytest.mark.parametrize("view", ["loads", "stock"])
def test_a_view_of_a_failed_plan_says_so(client, view):
    """A view of an outcome without a plan is a conflict that will not go away."""
    plan_id = client.post("/v1/plans", json={"order": "fault"}, headers=WITH_A_WAIT).json()[
        "plan_id"
    ]
    answer = client.get(f"/v1/plans/{plan_id}/{view}")
    assert (answer.status_code, answer.json()["code"]) == (409, "no_plan_in_outcome")


def test_health_rules_units_and_limits_are_answered(shared_client):
    """The pages of facts answer with something in each list."""
    assert shared_client.get("/healthz").json()["status"] == "ok"
    assert len(shared_client.get("/v1/rules").json()["rules"]) == len(RULES)
    units = shared_client.get("/v1/units").json()["dimensions"]
    pounds = next(u for d in units for u in d["units"] if u["unit"] == "lb")
    # International pound, exact: NIST Special Publication 811 (2008), appendix B.8.
    assert pounds == {"unit": "lb", "factor": "453.59237", "base_unit": "g"}
    limits = {
        entry["limit_id"]: entry["value"]
        for entry in shared_client.get("/v1/limits").json()["limits"]
    }
    assert limits["body_bytes"] == 2 * 1024 * 1024
    assert (
        limits["calendar"] == PlanRequest.model_json_schema()["properties"]["calendar"]["maxItems"]
    )
    assert {"roster", "gear", "route.places", "route.legs"} <= set(limits)


def _store_of(outcome):
    """A wiring whose store has one plan with this outcome."""
    stored = SimpleNamespace(outcome_document=json.dumps(outcome).encode())
    return SimpleNamespace(tenant_id="default", store=SimpleNamespace(read=lambda **_: stored))


def test_a_former_plan_named_by_its_id_is_stored_with_its_trips():
    """The request that is stored says all by itself; one that names no plan stays as it is."""
    wiring = _store_of({"outcome": "solved", "plan": {"trips": [{"day": 1}]}})
    asked = {"options": {"near_plan": {"plan_id": PLAN_ID}, "seed": 3}}
    stored = with_named_plans(wiring, asked)
    assert stored == {
        "options": {"near_plan": {"plan_id": PLAN_ID, "trips": [{"day": 1}]}, "seed": 3}
    }
    assert with_named_plans(wiring, stored) is stored
    assert with_named_plans(wiring, {}) == {}


def test_a_plan_to_begin_from_is_stored_whole():
    """Its id is put beside the plan itself, and a plan that is given stays as it is."""
    wiring = _store_of({"outcome": "solved", "plan": {"trips": [], "stock": []}})
    stored = with_named_plans(wiring, {"options": {"start_plan": {"plan_id": PLAN_ID}}})
    whole = {"plan_id": PLAN_ID, "plan": {"trips": [], "stock": []}}
    assert stored == {"options": {"start_plan": whole}}
    assert with_named_plans(wiring, stored) is stored


def test_a_former_plan_without_trips_is_a_fault():
    """Of an outcome that is no plan nothing can be kept."""
    with pytest.raises(RequestFaults) as caught:
        with_named_plans(
            _store_of({"outcome": "infeasible"}), {"options": {"near_plan": {"plan_id": PLAN_ID}}}
        )
    assert [fault.code for fault in caught.value.faults] == ["no_trips"]


@pytest.mark.parametrize("name", ["near_pl\\u0061n", "\\u0073tart_plan"])
def test_a_former_plan_is_found_however_the_name_is_written(client, name):
    """JSON may write any letter as an escape, and the name is still the same."""
    body = f'{{"options": {{"{name}": {{"plan_id": "{PLAN_ID}"}}}}}}'
    answer = client.post("/v1/plans", content=body, headers={"Content-Type": "application/json"})
    assert answer.status_code == 422
    assert [fault["code"] for fault in answer.json()["errors"]] == ["unknown_id"]


@pytest.mark.parametrize("plan_id", [PLAN_ID, "something else"])
def test_a_former_plan_that_nobody_knows_is_a_fault(client, plan_id):
    """The answer points at the id."""
    answer = client.post("/v1/plans", json={"options": {"near_plan": {"plan_id": plan_id}}})
    assert answer.status_code == 422
    assert [fault["pointer"] for fault in answer.json()["errors"]] == ["/options/near_plan/plan_id"]
