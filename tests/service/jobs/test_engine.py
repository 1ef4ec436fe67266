"""Plans on their way through the embedded engine, seen by a caller."""

import json
import os
import signal
import time

import pytest

from service.errors import ServiceProblem
from tests.service.fake_jobs import PROGRESS
from tests.service.fake_translation import TRANSLATION
from tests.service.processes import parent_of, the_only_solve, until


def ask(client, **members) -> str:
    """The name of a plan just asked for."""
    return client.post("/v1/plans", json=members).json()["plan_id"]


def read(client, plan_id: str) -> dict:
    """The plan of that name."""
    return client.get(f"/v1/plans/{plan_id}").json()


def running_child() -> int:
    """The process of the one solve that is running."""
    # Other services of this test run may have processes of their own that wait for questions.
    return the_only_solve(os.getpid(), TRANSLATION.solve_job)


@pytest.mark.parametrize(
    ("order", "code"),
    [
        ("fault", "solver_error"),
        ("eat_memory", "solver_out_of_memory"),
        ("crash", "solver_crashed"),
    ],
)
def test_a_broken_solve_becomes_a_failed_outcome(client, finished, order, code):
    """A solve that breaks ends as a stored outcome with its code, which echoes the reference."""
    plan = finished(ask(client, order=order, reference="b 1"))
    assert (plan["state"], plan["outcome_kind"]) == ("failed", "failed")
    assert (plan["outcome"]["outcome"], plan["outcome"]["code"]) == ("failed", code)
    assert plan["outcome"]["reference"] == "b 1"


def test_a_crash_is_tried_three_times_and_a_fault_once(client, finished):
    """Only what may go better the next time is tried again, three times in all."""
    assert finished(ask(client, order="crash"))["attempt"] == 3
    assert finished(ask(client, order="fault"))["attempt"] == 1


def test_a_solve_past_its_limit_is_ended(settings, client, finished):
    """A hanging solve with a limit of 0.2 s fails as timed out within the grace of 2 s."""
    begin = time.monotonic()
    plan = finished(ask(client, order="hang", solve_seconds=0.2))
    assert plan["outcome"]["code"] == "solver_timed_out"
    assert time.monotonic() - begin < 0.2 + settings.solve_grace_seconds + 0.8


def test_no_more_solves_at_once_than_workers(client, finished):
    """Of three plans with two workers, the third begins only once one of the others is finished."""
    plan_ids = [ask(client, order="sleep", seconds=0.6) for _ in range(3)]
    plans = [finished(plan_id) for plan_id in plan_ids]
    assert [plan["state"] for plan in plans] == ["done"] * 3
    *first, third = sorted(plans, key=lambda plan: plan["started_at"])
    assert third["started_at"] >= min(plan["finished_at"] for plan in first)


def test_a_solve_gives_way_to_those_for_whom_somebody_waits(client, finished):
    """A solve runs at a lower priority than the process that answers callers."""
    plan_id = ask(client, order="sleep", seconds=0.6)
    child = os.getpriority(os.PRIO_PROCESS, running_child())
    assert child >= min(os.getpriority(os.PRIO_PROCESS, 0) + 10, 19)
    assert finished(plan_id)["state"] == "done"


def test_a_killed_child_is_tried_again(client, finished):
    """A child killed from outside loses nothing: its plan is solved on the second attempt."""
    plan_id = ask(client, order="sleep", seconds=0.8)
    os.kill(running_child(), signal.SIGKILL)
    plan = finished(plan_id)
    assert (plan["state"], plan["attempt"]) == ("done", 2)


def test_progress_is_seen_while_a_plan_runs(settings, client):
    """What a solve tells of its progress can be read before it is finished."""
    # Renewals carry the progress, so the lease is made short.
    engine = client.app.state.wiring.engine
    engine._renew_seconds = 0.1
    plan_id = ask(client, order="tell", seconds=1.0)
    until(lambda: read(client, plan_id)["progress"] == json.loads(PROGRESS))
    assert read(client, plan_id)["state"] == "running"


def test_a_worker_that_loses_its_lease_ends_its_child(client):
    """When a renewal is refused, the child is killed and the plan is left to its new holder."""
    engine = client.app.state.wiring.engine
    engine._renew_seconds = 0.05
    plan_id = ask(client, order="sleep", seconds=30)
    child = running_child()
    with client.app.state.wiring.store._engine.begin() as connection:
        connection.exec_driver_sql("UPDATE plans SET fencing_token = fencing_token + 1")
    until(lambda: parent_of(child) == 0)
    assert read(client, plan_id)["state"] == "running"


def test_a_worker_survives_storage_that_fails_for_a_while(client, finished, monkeypatch):
    """An outcome that cannot be stored at once is stored when the storage works again."""
    queue = client.app.state.wiring.engine._queue
    working, refusals = queue.finish, []

    def refuse_once(*arguments, **named):
        if not refusals:
            refusals.append(1)
            raise ServiceProblem("storage_unavailable")
        working(*arguments, **named)

    monkeypatch.setattr(queue, "finish", refuse_once)
    plan = finished(ask(client))
    assert refusals == [1]
    assert (plan["state"], plan["attempt"]) == ("done", 1)


def test_stopping_hands_running_plans_back_at_once(client):
    """A stop ends a long solve within a second; its plan waits again with no attempt counted."""
    plan_id = ask(client, order="sleep", seconds=30)
    child = running_child()
    begin = time.monotonic()
    client.app.state.wiring.engine.stop()
    assert time.monotonic() - begin < 1
    assert parent_of(child) == 0
    plan = read(client, plan_id)
    assert (plan["state"], plan["attempt"]) == ("queued", 0)


def test_a_stopping_service_accepts_nothing(client):
    """After the stop has begun, a request is refused with 503 and health says so."""
    client.app.state.wiring.engine.stop()
    answer = client.post("/v1/plans", json={})
    assert (answer.status_code, answer.json()["code"]) == (503, "shutting_down")
    assert client.get("/healthz").status_code == 503
