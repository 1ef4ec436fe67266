"""Plans are claimed in turn, and only the holder of a lease may write: on either database.

The file is long because it is one list of who may write when.
"""

import threading
import time
from types import SimpleNamespace
from uuid import uuid4

import pytest
from sqlalchemy import select, update

from service.errors import ServiceProblem
from service.jobs.lookout import Rescuer
from service.storage import queue_room
from service.storage.database import open_database, reading, writing
from service.storage.leases import MOST_ABANDONED, LeaseLostError, PlanQueue
from service.storage.plans import PlanStore
from service.storage.tables import PlanRow
from service.storage.turns import next_in_turn
from tests.service.processes import until
from tests.service.storage.plans_in_store import (
    FINAL,
    accept,
    let_leases_run_out,
    let_pauses_pass,
    rescue,
    state_of,
)


def test_a_full_queue_refuses(store, queue):
    """With as many waiting as may wait, the next is refused, until one is claimed."""
    for _ in range(3):
        accept(store)
    with pytest.raises(ServiceProblem) as refusal:
        accept(store)
    assert refusal.value.code == "queue_full"
    queue.claim()
    accept(store)


def test_a_full_queue_is_full_for_a_moment_without_a_look(database, monkeypatch):
    """Right after a refusal the next one costs nothing; half a second later one of them looks."""
    store = PlanStore(database, queue_limit=1)
    clock = [queue_room.time.monotonic()]
    monkeypatch.setattr(queue_room, "time", SimpleNamespace(monotonic=lambda: clock[0]))
    store.room.require("t")
    accept(store)
    store.room.require("t")
    assert not store.room.is_known_full("t")
    with pytest.raises(ServiceProblem):
        accept(store)
    assert store.room.is_known_full("t")
    with pytest.raises(ServiceProblem, match="queue_full") as refusal:
        store.room.require("t")
    assert refusal.value.headers == {"Retry-After": "30"}
    clock[0] += 0.6
    assert not store.room.is_known_full("t")
    with pytest.raises(ServiceProblem, match="queue_full"):
        store.room.require("t")
    assert store.room.is_known_full("t")


def test_another_thread_may_find_room_while_one_asks(database, monkeypatch):
    """The moment is read once: that it is forgotten meanwhile is no error."""
    store = PlanStore(database, queue_limit=1)
    now = queue_room.time.monotonic()
    accept(store)
    with pytest.raises(ServiceProblem):
        accept(store)

    def found_meanwhile():
        store.room._full_until.clear()
        return now

    monkeypatch.setattr(queue_room, "time", SimpleNamespace(monotonic=found_meanwhile))
    assert store.room.is_known_full("t")
    assert not store.room.is_known_full("t")


def test_a_full_queue_has_room_again_once_somebody_has_looked(database, queue, monkeypatch):
    """What was claimed leaves room, which is seen half a second after the last look at most."""
    store = PlanStore(database, queue_limit=1)
    clock = [queue_room.time.monotonic()]
    monkeypatch.setattr(queue_room, "time", SimpleNamespace(monotonic=lambda: clock[0]))
    accept(store)
    with pytest.raises(ServiceProblem):
        accept(store)
    queue.claim()
    with pytest.raises(ServiceProblem, match="queue_full"):
        store.room.require("t")
    clock[0] += 0.6
    store.room.require("t")
    assert not store.room.is_known_full("t")
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


def test_a_lease_that_was_given_by_a_clock_ahead_does_not_hold_for_so_long(store, database):
    """The clock was a day ahead when the worker died, and then it was set right.

    A worker that lives has the time of a lease to renew, and keeps its plan by that.
    """
    plan_id, queue = accept(store), PlanQueue(database, lease_ms=2_000)
    claim = queue.claim()
    until(lambda: not queue.is_database_new())
    ahead = update(PlanRow).values(lease_until_ms=PlanRow.lease_until_ms + 86_400_000)
    rescuer = Rescuer(queue, lease_seconds=0.2)
    for renews in (True, False):
        with writing(database) as connection:
            connection.execute(ahead)
        assert queue.has_lease_too_far()
        rescuer()
        assert state_of(store, plan_id) == ("running", 1)
        if renews:
            queue.renew(claim)
            assert not queue.has_lease_too_far()
        time.sleep(0.3)
        rescuer()
        assert state_of(store, plan_id)[0] == ("running" if renews else "queued")


def test_a_pause_that_was_given_by_a_clock_ahead_is_none(store, queue, database):
    """A plan whose solve crashed under a clock a day ahead is claimed under the right one."""
    plan_id = accept(store)
    queue.hand_back(queue.claim(), crashed=True)
    assert queue.claim() is None
    with writing(database) as connection:
        ahead = PlanRow.not_before_ms + 86_400_000
        connection.execute(update(PlanRow).values(not_before_ms=ahead))
    assert queue.claim().plan_id == plan_id


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
    queue.tell(claim, b'{"p": 1}')
    rescue(queue)
    assert state_of(store, plan_id) == ("running", 1)
    assert store.read(tenant_id="t", plan_id=plan_id).progress_document == b'{"p": 1}'


def test_deaths_of_workers_fail_no_plan(store, queue, database):
    """A plan whose worker died five times waits again, unharmed."""
    plan_id = accept(store)
    for attempt in range(1, 6):
        let_pauses_pass(database)
        assert queue.claim().attempt == attempt
        let_leases_run_out(database)
        assert rescue(queue) == []
    assert state_of(store, plan_id) == ("queued", 5)


def test_a_plan_abandoned_without_end_is_closed_as_failed(store, queue, database):
    """The hundredth abandoned attempt ends the plan, with an outcome made from its request."""
    plan_id = accept(store, a=1)
    with writing(database) as connection:
        connection.execute(update(PlanRow).values(abandoned=MOST_ABANDONED - 2))
    for closed in ([], [plan_id]):
        let_pauses_pass(database)
        queue.claim()
        let_leases_run_out(database)
        assert rescue(queue) == closed
    assert state_of(store, plan_id)[0] == "failed"
    assert store.read(tenant_id="t", plan_id=plan_id).outcome_document == b'{"a": 1}'


def test_a_crashed_plan_waits_before_it_is_tried_again(store, queue, database):
    """After a crash nobody can claim the plan at once, and afterwards its crash is counted."""
    plan_id = accept(store)
    queue.hand_back(queue.claim(), crashed=True)
    assert queue.claim() is None
    assert queue.claim(plan_id) is None
    let_pauses_pass(database)
    assert queue.claim().crashes == 1


def test_a_result_is_stored_after_the_lease_ran_out_if_nobody_took_the_plan(store, queue, database):
    """A plan that was rescued, but not claimed again, takes the result of its old holder."""
    plan_id = accept(store)
    claim = queue.claim()
    let_leases_run_out(database)
    rescue(queue)
    queue.finish(claim, **FINAL)
    assert state_of(store, plan_id) == ("done", 1)


@pytest.mark.parametrize(
    "hold",
    [lambda queue, claim: queue.renew(claim), lambda queue, claim: queue.tell(claim, b"{}")],
    ids=["renew", "tell"],
)
def test_a_plan_that_nobody_took_is_taken_back_by_its_holder(store, queue, database, hold):
    """A worker whose lease ran out goes on with the same attempt, unless the plan was claimed."""
    plan_id = accept(store)
    claim = queue.claim()
    let_leases_run_out(database)
    rescue(queue)
    assert state_of(store, plan_id) == ("queued", 1)
    hold(queue, claim)
    assert state_of(store, plan_id) == ("running", 1)
    assert queue.claim() is None
    queue.finish(claim, **FINAL)
    assert state_of(store, plan_id) == ("done", 1)


def test_a_database_is_new_for_the_time_of_a_lease(postgres, tmp_path):
    """PostgreSQL tells when it began to take writers; a file is never new."""
    server = open_database(postgres.make(f"t{uuid4().hex}"))
    file = open_database(tmp_path / "plans.sqlite3")
    assert PlanQueue(server, lease_ms=10**12).is_database_new()
    assert not PlanQueue(server, lease_ms=1).is_database_new()
    assert not PlanQueue(file, lease_ms=10**12).is_database_new()
    for engine in (server, file):
        engine.dispose()


@pytest.mark.parametrize(
    "write",
    [
        lambda queue, claim: queue.finish(claim, **FINAL),
        lambda queue, claim: queue.renew(claim),
        lambda queue, claim: queue.hand_back(claim, crashed=False),
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
    queue.hand_back(queue.claim(), crashed=False)
    assert state_of(store, plan_id) == ("queued", 0)
    queue.hand_back(queue.claim(), crashed=True)
    assert state_of(store, plan_id) == ("queued", 1)


def accept_for(store: PlanStore, tenant_id: str) -> str:
    """The name of a plan just accepted for a tenant."""
    return store.accept(tenant_id=tenant_id, reference=None, solve_seconds=1.0, document={}).plan_id


def test_tenants_take_turns(database, queue):
    """After a flood of one tenant, the first plan of another is among the next two."""
    store = PlanStore(database, queue_limit=1000)
    for _ in range(20):
        accept_for(store, "flood")
    queue.finish(queue.claim(), **FINAL)
    late = accept_for(store, "late")
    next_two = []
    for _ in range(2):
        claim = queue.claim()
        next_two.append(claim.plan_id)
        queue.finish(claim, **FINAL)
    assert late in next_two


def test_turns_are_chosen_in_one_statement(database):
    """The plan whose turn it is, is chosen by the database itself."""
    store = PlanStore(database, queue_limit=10)
    plan_id = accept_for(store, "t")
    with reading(database) as connection:
        assert connection.execute(select(next_in_turn())).scalar_one() == plan_id


def test_an_outside_queue_hears_of_a_plan_in_its_transaction(database):
    """A plan whose queue refuses it is not stored."""

    def refuse(_connection, _plan_id):
        raise LookupError

    store = PlanStore(database, queue_limit=3, enqueue=refuse)
    with pytest.raises(LookupError):
        accept(store)
    assert store.list(tenant_id="t", reference=None, before_plan_id=None, limit=9) == []
