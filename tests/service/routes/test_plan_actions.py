"""Plans that are cancelled, finished early, and followed while they run."""

import json
import time

import pytest

from api_schema.plan_events import PlanEventAnswer
from service.jobs.embedded import EmbeddedEngine
from service.routes import plan_actions, plan_events
from service.storage.events import PlanEvent
from tests.service.processes import meanwhile, until


def ask(client, **members) -> str:
    """The name of a plan just asked for."""
    return client.post("/v1/plans", json=members).json()["plan_id"]


def state(client, plan_id: str) -> str:
    """The state of a plan."""
    return client.get(f"/v1/plans/{plan_id}").json()["state"]


def read_events(client, plan_id: str, **headers) -> list[dict]:
    """The events of a plan's stream, to its end."""
    answer = client.get(f"/v1/plans/{plan_id}/events", headers=headers)
    assert answer.headers["content-type"].startswith("text/event-stream")
    lines = answer.text.splitlines()
    return [json.loads(line.removeprefix("data: ")) for line in lines if line.startswith("data: ")]


def test_the_routes_of_actions_are_served(client):
    """The application has every route of the two modules, and the embedded engine behind them."""
    served = {route.path for route in client.app.state.routes}
    for router in (plan_actions.router, plan_events.router):
        assert {route.path for route in router.routes} <= served
    assert isinstance(client.app.state.wiring.engine, EmbeddedEngine)


def test_a_running_solve_is_cancelled_within_a_second(client):
    """A solve that is deaf to everything ends, and its plan is cancelled without an outcome."""
    plan_id = ask(client, order="hang", solve_seconds=9)
    until(lambda: state(client, plan_id) == "running")
    begin = time.monotonic()
    asked = client.post(f"/v1/plans/{plan_id}/cancel")
    assert (asked.status_code, asked.headers["Retry-After"]) == (202, "2")
    until(lambda: state(client, plan_id) == "cancelled")
    assert time.monotonic() - begin < 1.5
    assert "Retry-After" not in client.post(f"/v1/plans/{plan_id}/cancel").headers
    plan = client.get(f"/v1/plans/{plan_id}").json()
    assert (plan["outcome"], plan["outcome_kind"]) == (None, None)
    answer = client.get(f"/v1/plans/{plan_id}/loads")
    assert (answer.status_code, answer.json()["code"]) == (409, "plan_cancelled")


def test_a_running_solve_is_finished_early(client, finished):
    """A solve that would go on answers once its caller wants what there is."""
    plan_id = ask(client, order="until_finish", solve_seconds=9)
    until(lambda: state(client, plan_id) == "running")
    assert client.post(f"/v1/plans/{plan_id}/finish").status_code == 202
    assert finished(plan_id)["outcome"]["finished_early"]


def test_a_final_plan_refuses_both(client, finished):
    """What is done can neither be cancelled nor finished."""
    plan_id = ask(client)
    finished(plan_id)
    for action, code in (("cancel", "plan_is_final"), ("finish", "plan_not_running")):
        answer = client.post(f"/v1/plans/{plan_id}/{action}")
        assert (answer.status_code, answer.json()["code"]) == (409, code)


@pytest.mark.parametrize(
    ("method", "what"), [("POST", "cancel"), ("POST", "finish"), ("GET", "events")]
)
def test_an_unknown_plan_is_not_found(shared_client, method, what):
    """Nothing can be done with a plan that does not exist."""
    answer = shared_client.request(method, f"/v1/plans/plan_{'0' * 26}/{what}")
    assert answer.status_code == 404


def test_a_plan_is_followed_to_its_end(client):
    """The stream has every step with its progress, in the published form, and then closes."""
    plan_id = ask(client, order="tell", seconds=0.1, solve_seconds=5)
    events = [PlanEventAnswer.model_validate(event) for event in read_events(client, plan_id)]
    assert [event.event for event in events] == ["queued", "running", "progress", "done"]
    assert events[2].progress.peak == 1.0


def test_a_stream_goes_on_where_it_broke_off(client, finished):
    """With the number of the last event that is known, only later ones are sent; then none."""
    plan_id = ask(client)
    finished(plan_id)
    assert [event["number"] for event in read_events(client, plan_id)] == [1, 2, 3]
    assert [e["number"] for e in read_events(client, plan_id, **{"Last-Event-ID": "2"})] == [3]
    done = client.get(f"/v1/plans/{plan_id}/events", headers={"Last-Event-ID": "3"})
    assert done.status_code == 204
    assert len(read_events(client, plan_id, **{"Last-Event-ID": "no number"})) == 3


def test_an_event_has_its_number_as_its_id():
    """A browser sends that id back when it connects again."""
    text = plan_events.event_text("plan_" + "0" * 26, PlanEvent(7, "running", 0, None))
    assert text.startswith(b"id: 7\nevent: running\ndata: {")
    assert text.endswith(b"\n\n")


def test_a_plan_that_runs_says_when_to_read_it_again(client, finished):
    """Retry-After comes with a plan that will change, and not with one that is final."""
    plan_id = ask(client, order="sleep", seconds=0.3)
    assert client.get(f"/v1/plans/{plan_id}").headers["retry-after"] == "2"
    finished(plan_id)
    assert "retry-after" not in client.get(f"/v1/plans/{plan_id}").headers


@pytest.mark.parametrize("number", ["4", "999"])
def test_a_number_that_was_never_sent_means_that_nothing_is_known(client, finished, number):
    """After a restore from a backup events count anew: whoever has later ones gets all of them."""
    plan_id = ask(client, order="sleep", seconds=0.6)
    until(lambda: state(client, plan_id) == "running")
    events = read_events(client, plan_id, **{"Last-Event-ID": number})
    assert [event["number"] for event in events] == [1, 2, 3]
    finished(plan_id)
    events = read_events(client, plan_id, **{"Last-Event-ID": number})
    assert [event["number"] for event in events] == [1, 2, 3]


def test_a_stream_ends_when_its_plan_is_deleted(client):
    """The stream closes; whoever comes again learns that there is no such plan."""
    plan_id = ask(client, order="sleep", seconds=8)
    until(lambda: state(client, plan_id) == "running")
    with meanwhile(0.5, client.delete, f"/v1/plans/{plan_id}"):
        begin = time.monotonic()
        assert [event["number"] for event in read_events(client, plan_id)] == [1, 2]
        assert time.monotonic() - begin < 4
    again = client.get(f"/v1/plans/{plan_id}/events", headers={"Last-Event-ID": "2"})
    assert again.status_code == 404


@pytest.mark.parametrize("is_told", [True, False])
def test_a_wait_ends_when_its_plan_is_deleted(client, is_told):
    """Whoever waits hears that the plan is gone, also where another process deleted it."""
    gone = []

    def delete():
        (plan,) = client.get("/v1/plans").json()["plans"]
        gone.append(plan["plan_id"])
        if is_told:
            client.delete(f"/v1/plans/{gone[0]}")
        else:
            client.app.state.wiring.store.delete(tenant_id="default", plan_id=gone[0])

    body = {"order": "sleep", "seconds": 8}
    with meanwhile(0.7, delete):
        begin = time.monotonic()
        answer = client.post("/v1/plans", json=body, headers={"Prefer": "wait=10"})
        assert time.monotonic() - begin < 4
    assert (answer.status_code, answer.json()["code"], len(gone)) == (404, "not_found", 1)
