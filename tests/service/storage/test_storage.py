"""The table of plans: what is accepted stays, and only the holder of a lease may write."""

import sqlite3
import threading
import time
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import Engine, update

from service.errors import ServiceProblem
from service.storage.database import open_database, reading, writing
from service.storage.leases import MOST_ATTEMPTS, LeaseLostError, PlanQueue
from service.storage.plan_ids import is_plan_id, new_plan_id
from service.storage.plans import PlanStore, document_digest
from service.storage.tables import PlanRow, Tables

FINAL = {"state": "done", "outcome_kind": "solved", "outcome": b"{}"}


@pytest.fixture
def database(tmp_path: Path) -> Engine:
    """A fresh database."""
    engine = open_database(tmp_path / "data" / "plans.sqlite3")
    yield engine
    engine.dispose()


@pytest.fixture
def store(database: Engine) -> PlanStore:
    """Plans on the fresh database; three may wait."""
    return PlanStore(database, queue_limit=3)


@pytest.fixture
def queue(database: Engine) -> PlanQueue:
    """The queue of the fresh database, with leases of a minute."""
    return PlanQueue(database, lease_ms=60_000)


def accept(store: PlanStore, **members) -> str:
    """The name of a plan just accepted."""
    return store.accept(
        tenant_id="t", reference=members.get("reference"), solve_seconds=1.0, document=members
    ).plan_id


def state_of(store: PlanStore, plan_id: str) -> tuple[str, int]:
    """State and attempt of a plan."""
    summary = store.read(tenant_id="t", plan_id=plan_id).summary
    return summary.state, summary.attempt


def let_leases_run_out(database: Engine) -> None:
    """Move the end of every lease into the past."""
    with writing(database) as connection:
        connection.execute(
            update(PlanRow).where(PlanRow.state == "running").values(lease_until_ms=1)
        )


def rescue(queue: PlanQueue) -> list[str]:
    """Rescue with a failed outcome that repeats the request."""
    return queue.rescue(outcome_kind="failed", outcome_of=lambda request: request)


def test_the_migrations_make_the_tables_of_the_models(database):
    """A database brought up by the migrations differs in nothing from the models."""
    with reading(database) as connection:
        context = MigrationContext.configure(connection, opts={"compare_server_default": True})
        assert compare_metadata(context, Tables.metadata) == []


def test_the_migrations_make_the_checks_of_the_models(database):
    """A state that the models do not know is refused by the database itself."""
    with pytest.raises(Exception, match="state_known"), writing(database) as connection:
        connection.execute(
            PlanRow.__table__.insert().values(
                plan_id="p",
                tenant_id="t",
                state="lost",
                created_at_ms=1,
                request_document=b"",
                request_digest="",
                solve_seconds=1.0,
            )
        )


def test_opening_again_keeps_what_is_there(tmp_path):
    """A database that exists is opened with its rows."""
    path = tmp_path / "plans.sqlite3"
    first = open_database(path)
    plan_id = accept(PlanStore(first, queue_limit=3))
    first.dispose()
    second = open_database(path)
    assert state_of(PlanStore(second, queue_limit=3), plan_id) == ("queued", 0)
    second.dispose()


def test_commits_wait_for_the_disk(database):
    """Every connection writes ahead and syncs in full (SQLite documentation, PRAGMA: FULL is 2)."""
    with reading(database) as connection:
        assert connection.exec_driver_sql("PRAGMA journal_mode").scalar_one() == "wal"
        assert connection.exec_driver_sql("PRAGMA synchronous").scalar_one() == 2


def test_a_writer_holds_the_lock_from_its_first_moment(database, tmp_path):
    """No other connection can begin to write inside a write transaction, even before it writes."""
    other = sqlite3.connect(tmp_path / "data" / "plans.sqlite3", isolation_level=None, timeout=0)
    with writing(database), pytest.raises(sqlite3.OperationalError, match="locked"):
        other.execute("BEGIN IMMEDIATE")
    other.close()


def test_a_reader_blocks_no_writer(database, tmp_path):
    """A connection can write while another one reads."""
    other = sqlite3.connect(tmp_path / "data" / "plans.sqlite3", isolation_level=None, timeout=0)
    with reading(database) as connection:
        connection.exec_driver_sql("SELECT count(*) FROM plans").scalar_one()
        other.execute("BEGIN IMMEDIATE")
        other.execute("COMMIT")
    other.close()


def test_times_are_those_of_the_clock(store):
    """The database's milliseconds agree with the system clock within two seconds."""
    plan_id = accept(store)
    created_at_ms = store.read(tenant_id="t", plan_id=plan_id).summary.created_at_ms
    assert abs(created_at_ms - time.time() * 1000) < 2000


def test_plan_ids_sort_by_time_and_are_recognised():
    """A later name sorts after an earlier one, and each has the documented form."""
    first = new_plan_id()
    time.sleep(0.002)
    second = new_plan_id()
    assert first < second
    assert is_plan_id(first)
    assert not is_plan_id(first + "\n")


def test_the_digest_ignores_the_order_of_members():
    """Two documents that differ only in the order of their members have one digest."""
    assert document_digest({"a": 1, "b": {"c": 2, "d": 3}}) == document_digest(
        {"b": {"d": 3, "c": 2}, "a": 1}
    )
    assert document_digest({"a": 1}) != document_digest({"a": 2})


def test_a_tenant_sees_its_own_plans_only(store):
    """Reading and listing as another tenant finds nothing."""
    plan_id = accept(store)
    assert store.read(tenant_id="other", plan_id=plan_id) is None
    assert store.list(tenant_id="other", reference=None, before_plan_id=None, limit=9) == []


def test_a_full_queue_refuses(store, queue):
    """With as many waiting as may wait, the next is refused, until one is claimed."""
    for _ in range(3):
        accept(store)
    with pytest.raises(ServiceProblem) as refusal:
        accept(store)
    assert refusal.value.code == "queue_full"
    queue.claim()
    accept(store)


def test_the_oldest_waits_least(store, queue):
    """Plans are claimed in the order in which they were accepted."""
    plan_ids = []
    for _ in range(3):
        plan_ids.append(accept(store))
        time.sleep(0.003)
    assert [queue.claim().plan_id for _ in range(3)] == plan_ids
    assert queue.claim() is None


def test_many_claimers_never_get_the_same_plan(database):
    """Eight threads that claim at once share forty plans without doubles."""
    store = PlanStore(database, queue_limit=100)
    queue = PlanQueue(database, lease_ms=60_000)
    plan_ids = {accept(store) for _ in range(40)}
    claimed = []

    def claim_all():
        while (claim := queue.claim()) is not None:
            claimed.append(claim.plan_id)

    threads = [threading.Thread(target=claim_all) for _ in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(claimed) == 40
    assert set(claimed) == plan_ids


def test_result_and_state_are_stored_together(store, queue):
    """A finished plan has its outcome, its kind and its end."""
    plan_id = accept(store, a=1)
    queue.finish(queue.claim(), state="done", outcome_kind="solved", outcome=b'{"x": 1}')
    plan = store.read(tenant_id="t", plan_id=plan_id)
    assert (plan.summary.state, plan.summary.outcome_kind) == ("done", "solved")
    assert plan.outcome_document == b'{"x": 1}'
    assert plan.summary.finished_at_ms >= plan.summary.started_at_ms


def test_a_lease_that_holds_is_left_alone(store, queue):
    """Rescue does not touch a plan whose worker has renewed in time."""
    plan_id = accept(store)
    queue.claim()
    assert rescue(queue) == []
    assert state_of(store, plan_id) == ("running", 1)


def test_an_abandoned_plan_is_queued_again(store, queue, database):
    """A plan whose lease ran out waits again, with its attempt counted."""
    plan_id = accept(store)
    queue.claim()
    let_leases_run_out(database)
    rescue(queue)
    assert state_of(store, plan_id) == ("queued", 1)


def test_a_renewal_keeps_a_lease_from_running_out(store, queue, database):
    """After a renewal, rescue finds the lease in force, and progress is stored with it."""
    plan_id = accept(store)
    claim = queue.claim()
    let_leases_run_out(database)
    queue.renew(claim, progress_document=b'{"p": 1}')
    rescue(queue)
    assert state_of(store, plan_id) == ("running", 1)
    assert store.read(tenant_id="t", plan_id=plan_id).progress_document == b'{"p": 1}'


def test_a_plan_abandoned_three_times_is_closed_as_failed(store, queue, database):
    """The third abandoned attempt ends the plan, with an outcome made from its request."""
    plan_id = accept(store, a=1)
    for attempt in range(1, MOST_ATTEMPTS + 1):
        assert queue.claim().attempt == attempt
        let_leases_run_out(database)
        assert rescue(queue) == ([plan_id] if attempt == MOST_ATTEMPTS else [])
    assert state_of(store, plan_id) == ("failed", MOST_ATTEMPTS)
    assert store.read(tenant_id="t", plan_id=plan_id).outcome_document == b'{"a": 1}'


@pytest.mark.parametrize(
    "write",
    [
        lambda queue, claim: queue.finish(claim, **FINAL),
        lambda queue, claim: queue.renew(claim, progress_document=None),
        lambda queue, claim: queue.hand_back(claim, attempt_counts=False),
    ],
    ids=["finish", "renew", "hand_back"],
)
def test_a_worker_that_lost_its_lease_can_write_nothing(store, queue, database, write):
    """After another worker has claimed the plan, every write of the first is refused."""
    plan_id = accept(store)
    paused = queue.claim()
    let_leases_run_out(database)
    rescue(queue)
    current = queue.claim()
    with pytest.raises(LeaseLostError):
        write(queue, paused)
    assert state_of(store, plan_id) == ("running", 2)
    queue.finish(current, **FINAL)
    assert state_of(store, plan_id) == ("done", 2)


def test_a_finished_plan_is_never_overwritten(store, queue):
    """The second of two final writes under one token is refused."""
    accept(store)
    claim = queue.claim()
    queue.finish(claim, **FINAL)
    with pytest.raises(LeaseLostError):
        queue.finish(claim, state="failed", outcome_kind="failed", outcome=b"{}")


def test_handing_back_need_not_cost_an_attempt(store, queue):
    """A plan handed back because the service stops waits again as if it had not been tried."""
    plan_id = accept(store)
    queue.hand_back(queue.claim(), attempt_counts=False)
    assert state_of(store, plan_id) == ("queued", 0)
    queue.hand_back(queue.claim(), attempt_counts=True)
    assert state_of(store, plan_id) == ("queued", 1)
