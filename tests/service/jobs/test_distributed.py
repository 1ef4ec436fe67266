"""API processes and workers on one PostgreSQL: the same promises as in one process."""

import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from uuid import uuid4

import pytest

from service import worker
from service.jobs import job_queue
from service.jobs.distributed import DistributedEngine, QueueKeeper
from service.storage.database import open_database, reading
from service.storage.leases import PlanQueue
from service.storage.migrations.versions import m0006_job_queue
from service.storage.plans import PlanStore
from tests.service.processes import CALLER, RunningService, free_port, solving_under, until

ROOT = Path(__file__).parents[3]
START_SECONDS = 120
"""Two workers load the solver at once, on a machine that may be busy."""


@pytest.fixture(scope="module")
def environment(postgres) -> dict[str, str]:
    """Settings of every process: a database of their own, and leases of two seconds."""
    return {
        "HAULWRIGHT_DATABASE_URL": postgres.make(f"t{uuid4().hex}"),
        "HAULWRIGHT_SOLVE_MEMORY_MB": "400",
        "HAULWRIGHT_LEASE_SECONDS": "2",
        "HAULWRIGHT_SOLVE_WORKERS": "1",
    }


@pytest.fixture(scope="module")
def api(environment, tmp_path_factory) -> Iterator[RunningService]:
    """An API process, which never solves."""
    service = RunningService(
        environment={**environment, "HAULWRIGHT_PORT": str(free_port())},
        log=tmp_path_factory.mktemp("api") / "log",
    )
    service.start()
    yield service
    service.end(signal.SIGKILL)


@pytest.fixture(scope="module")
def crew(environment, tmp_path_factory) -> Iterator[list[subprocess.Popen]]:
    """The workers, to be ended after all tests."""
    started: list[subprocess.Popen] = []
    yield started
    for process in started:
        process.kill()
        process.wait()


@pytest.fixture
def workers(crew, environment, tmp_path) -> list[subprocess.Popen]:
    """Two running workers, each of which solves one plan at a time."""
    alive = [process for process in crew if process.poll() is None]
    with (tmp_path / "log").open("ab") as log:
        alive += [
            subprocess.Popen(
                [sys.executable, "-m", "tests.service.worker"],
                env={**os.environ, **environment},
                cwd=ROOT,
                stdout=log,
                stderr=log,
            )
            for _ in range(2 - len(alive))
        ]
    crew[:] = alive
    return alive


def test_a_job_is_enqueued_in_the_transaction_of_its_plan(environment):
    """A plan is stored with its job, and a job that was lost is found again."""
    database = open_database(environment["HAULWRIGHT_DATABASE_URL"])
    store = PlanStore(database, queue_limit=9, enqueue=DistributedEngine().enqueue)
    plan = store.accept(tenant_id="t", reference=None, solve_seconds=1.0, document={})
    with reading(database) as connection:
        jobs = connection.exec_driver_sql("SELECT args FROM procrastinate_jobs").scalars().all()
    assert jobs == [{"plan_id": plan.plan_id}]
    assert job_queue.top_up(database) == 0
    with database.begin() as connection:
        connection.exec_driver_sql("DELETE FROM procrastinate_jobs")
    keeper = QueueKeeper(PlanQueue(database, lease_ms=1000), database, lease_seconds=1)
    assert keeper() == []
    assert job_queue.top_up(database) == 0
    claim = PlanQueue(database, lease_ms=60_000).claim()
    PlanQueue(database, lease_ms=60_000).finish(
        claim, state="done", outcome_kind="solved", outcome=b"{}"
    )
    database.dispose()
    assert m0006_job_queue.down_revision == "0005"


def test_a_worker_needs_a_database(monkeypatch):
    """Without an address a worker ends with a message."""
    monkeypatch.delenv("HAULWRIGHT_DATABASE_URL", raising=False)
    with pytest.raises(SystemExit, match="HAULWRIGHT_DATABASE_URL"):
        worker.main()


def the_one_at_work(workers: list[subprocess.Popen]) -> subprocess.Popen:
    """The worker that solves, once it is the only one that does.

    A plan is stored as running before its child is there, and as done before its child is gone.
    """
    at_work: list[subprocess.Popen] = []

    def is_alone() -> bool:
        at_work[:] = [worker for worker in workers if solving_under(worker.pid)]
        return len(at_work) == 1

    until(is_alone, seconds=START_SECONDS)
    return at_work[0]


def all_at_work(workers: list[subprocess.Popen]) -> None:
    """Wait until each of the workers solves."""
    until(lambda: all(solving_under(worker.pid) for worker in workers), seconds=START_SECONDS)


def running(api: RunningService) -> str:
    """The name of a plan that runs until it is asked to finish."""
    plan_id = api.ask(order="until_finish", solve_seconds=250)
    until(lambda: api.read(plan_id)["state"] == "running", seconds=START_SECONDS)
    return plan_id


def end(api: RunningService, plan_id: str) -> dict:
    """The plan, asked to finish, once it is final."""

    def is_final() -> bool:
        CALLER.post(f"{api.url}/v1/plans/{plan_id}/finish", timeout=30)
        return api.read(plan_id)["state"] in ("done", "failed")

    until(is_final, seconds=START_SECONDS)
    return api.read(plan_id)


def test_two_workers_solve_what_an_api_process_accepts(api, workers):
    """Two plans run at the same time, none in the API process, and both can be finished early."""
    plan_ids = [running(api), running(api)]
    assert [api.read(plan_id)["state"] for plan_id in plan_ids] == ["running"] * 2
    assert solving_under(api.process.pid) == []
    all_at_work(workers)
    for plan_id in plan_ids:
        assert end(api, plan_id)["outcome"]["finished_early"]


def test_a_wait_hears_of_a_worker(api, workers):
    """A caller who waits gets the result that another process stored."""
    answer = CALLER.post(f"{api.url}/v1/plans", json={}, headers={"Prefer": "wait=60"}, timeout=90)
    assert answer.status_code == 201


def test_a_killed_worker_loses_nothing(api, workers):
    """Its plan runs again at another worker, and its death is not held against the plan."""
    plan_id = running(api)
    the_one_at_work(workers).kill()
    until(lambda: api.read(plan_id)["attempt"] == 2, seconds=START_SECONDS)
    plan = end(api, plan_id)
    assert (plan["state"], plan["attempt"]) == ("done", 2)


def test_a_worker_that_is_told_to_stop_hands_its_plan_back(api, workers):
    """On SIGTERM a worker ends by itself; the attempt does not count."""
    plan_id = running(api)
    leaving = the_one_at_work(workers)
    leaving.terminate()
    assert leaving.wait(timeout=START_SECONDS) == 0
    plan = end(api, plan_id)
    assert (plan["state"], plan["attempt"]) == ("done", 1)


def test_a_running_plan_is_cancelled_from_an_api_process(api, workers):
    """The wish goes through the database to the worker, which ends its solve."""
    plan_id = api.ask(order="hang", solve_seconds=250)
    until(lambda: api.read(plan_id)["state"] == "running", seconds=START_SECONDS)
    CALLER.post(f"{api.url}/v1/plans/{plan_id}/cancel", timeout=30)
    until(lambda: api.read(plan_id)["state"] == "cancelled", seconds=20)
    until(lambda: not any(solving_under(w.pid) for w in workers))


def test_postgresql_may_be_killed_while_a_plan_runs(api, workers, postgres):
    """After its kill and restart the plan is finished by the worker that had it, once.

    However long that takes: nobody rescues a plan before its worker had time to renew the lease.
    """
    plan_id = running(api)
    postgres.kill()
    postgres.start()

    def answers() -> bool:
        return CALLER.get(f"{api.url}/v1/plans/{plan_id}", timeout=30).status_code == 200

    until(answers, seconds=START_SECONDS)
    plan = end(api, plan_id)
    assert (plan["state"], plan["attempt"]) == ("done", 1)


RESCUE_SECONDS = 15.0
"""The promise: a plan whose worker died runs again within this time [s]."""
CANCEL_SECONDS = 2.0
"""The promise: a running plan is cancelled within this time [s]."""


def both_solve(api: RunningService, workers: list[subprocess.Popen]) -> list[str]:
    """The names of two running plans, one at each worker, so that both are warm."""
    plan_ids = [running(api), running(api)]
    all_at_work(workers)
    return plan_ids


def moments(api: RunningService, plan_id: str) -> list[tuple[str, float]]:
    """What happened to a final plan, and when by the clock of the database [s]."""
    lines = CALLER.get(f"{api.url}/v1/plans/{plan_id}/events", timeout=30).text.splitlines()
    told = [json.loads(line.partition(":")[2]) for line in lines if line.startswith("data:")]
    return [(event["event"], datetime.fromisoformat(event["at"]).timestamp()) for event in told]


def test_the_plan_of_a_killed_worker_runs_again_within_15_s(api, workers):
    """From the kill to the next start, with another worker that has nothing else to do."""
    plan_ids = both_solve(api, workers)
    # One of the two is finished, so that its worker is free and the other's is the victim.
    spare = end(api, plan_ids[1])
    assert spare["state"] == "done"
    holder = the_one_at_work(workers)
    killed_at = time.time()
    holder.kill()
    until(lambda: api.read(plan_ids[0])["attempt"] == 2, seconds=START_SECONDS)
    end(api, plan_ids[0])
    starts = [at for kind, at in moments(api, plan_ids[0]) if kind == "running"]
    assert len(starts) == 2
    assert starts[1] - killed_at <= RESCUE_SECONDS


def test_a_running_plan_is_cancelled_within_2_s(api, workers):
    """From the wish to the end, by the clock of the database, at a worker that is warm."""
    plan_id, other = both_solve(api, workers)
    CALLER.post(f"{api.url}/v1/plans/{plan_id}/cancel", timeout=30)
    until(lambda: api.read(plan_id)["state"] == "cancelled", seconds=START_SECONDS)
    when = dict(moments(api, plan_id))
    assert when["cancelled"] - when["cancelling"] <= CANCEL_SECONDS
    end(api, other)
