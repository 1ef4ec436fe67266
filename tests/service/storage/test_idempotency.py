"""Keys of repeated requests: one transaction with the plan, 24 hours, one tenant."""

import threading
from concurrent.futures import ThreadPoolExecutor

import pytest
from sqlalchemy import delete, update

from service.errors import ServiceProblem
from service.storage.database import writing
from service.storage.idempotency import BegunWork, RequestKey, known_plan
from service.storage.plans import PlanStore
from service.storage.tables import IdempotencyRow, PlanRow
from service.written_document import document_digest


@pytest.fixture
def store(database):
    """Plans on the fresh database; one may wait."""
    return PlanStore(database, queue_limit=1)


def accept(store, key, tenant="t", sent=None, **document):
    """The name of the plan of a request with a key, and with the digest of what was sent."""
    return store.accept(
        tenant_id=tenant,
        reference=None,
        solve_seconds=1.0,
        document=document,
        idempotency_key=RequestKey(key, sent),
    ).plan_id


def begun(database, key="a", sent="s", tenant="t"):
    """The name of the plan that a request made which is sent again."""
    return BegunWork(database).plan_of(tenant_id=tenant, key=key, sent_digest=sent)


def test_a_full_queue_refuses_a_new_key_and_knows_an_old_one(store):
    """A repeated request needs no room in the queue; the refused one leaves no key behind."""
    plan_id = accept(store, "a")
    assert accept(store, "a") == plan_id
    with pytest.raises(ServiceProblem, match="queue_full"):
        accept(store, "b")
    store.delete(tenant_id="t", plan_id=plan_id)
    assert accept(store, "b") != plan_id


def test_a_key_is_of_one_tenant(database):
    """Two tenants with one key have two plans, and never meet."""
    store = PlanStore(database, queue_limit=9)
    assert accept(store, "a") != accept(store, "a", tenant="other")


def test_a_key_is_forgotten_after_a_day(store, database):
    """After 24 hours the key makes a new plan; a minute before, it does not."""
    plan_id = accept(store, "a")
    for hours, is_known in ((23.9, True), (24.1, False)):
        with writing(database) as connection:
            earlier = IdempotencyRow.created_at_ms - round(hours * 3_600_000)
            connection.execute(update(IdempotencyRow).values(created_at_ms=earlier))
            known = known_plan(
                connection, tenant_id="t", key="a", request_digest=document_digest({})
            )
            assert (known == plan_id) is is_known
            later = IdempotencyRow.created_at_ms + round(hours * 3_600_000)
            connection.execute(update(IdempotencyRow).values(created_at_ms=later))


def test_whoever_is_second_gets_the_plan_of_the_first(database, monkeypatch):
    """Where another process stores the key after the look, its plan is given and none is left."""
    store = PlanStore(database, queue_limit=9)
    first = accept(store, "same")
    looked = []

    def look(connection, **key):
        looked.append(key)
        return known_plan(connection, **key) if len(looked) > 1 else None

    monkeypatch.setattr("service.storage.plans.known_plan", look)
    assert accept(store, "same") == first
    assert [plan.plan_id for plan in store.list(tenant_id="t", before_plan_id=None, limit=9)] == [
        first
    ]


def test_a_plan_that_goes_between_two_looks_is_made_anew(database, monkeypatch):
    """The key is known, and then its plan is deleted: the request makes a plan of its own."""
    store = PlanStore(database, queue_limit=9)
    first = accept(store, "same")

    def look(connection, **key):
        found = known_plan(connection, **key)
        if found == first:
            # On SQLite nobody else writes now, so that it can only be this transaction.
            if database.dialect.name == "sqlite":
                connection.execute(delete(PlanRow).where(PlanRow.plan_id == first))
            else:
                store.delete(tenant_id="t", plan_id=first)
        return found

    monkeypatch.setattr("service.storage.plans.known_plan", look)
    second = accept(store, "same")
    assert second != first
    assert accept(store, "same") == second


def test_what_was_sent_before_is_known_by_its_digest(database):
    """It is known to its tenant, with its key, and only if the same was sent."""
    store = PlanStore(database, queue_limit=9)
    plan_id = accept(store, "a", sent="s")
    assert begun(database) == plan_id
    others = ({"key": "b"}, {"sent": "other"}, {"tenant": "other"})
    assert [begun(database, **other) for other in others] == [None] * 3
    theirs = accept(store, "a", tenant="other", sent="s")
    assert begun(database, tenant="other") == theirs != plan_id
    assert begun(database) == plan_id


def test_a_key_from_before_such_digests_is_known_by_what_was_asked(database):
    """Its row has no digest of what was sent, and a later request with one is still the same."""
    store = PlanStore(database, queue_limit=9)
    plan_id = accept(store, "a", x=1)
    assert begun(database) is None
    assert accept(store, "a", sent="s", x=1) == plan_id
    with pytest.raises(ServiceProblem, match="idempotency_key_reused"):
        accept(store, "a", sent="s", x=2)
    with pytest.raises(ServiceProblem, match="idempotency_key_reused"):
        accept(store, "a", x=2)


def test_what_was_sent_before_is_forgotten_after_a_day(database):
    """After 24 hours nothing was begun; a minute before, it was."""
    plan_id = accept(PlanStore(database, queue_limit=9), "a", sent="s")
    for minutes, known in ((24 * 60 - 1, plan_id), (2, None)):
        with writing(database) as connection:
            earlier = IdempotencyRow.created_at_ms - minutes * 60_000
            connection.execute(update(IdempotencyRow).values(created_at_ms=earlier))
        assert begun(database) == known


def test_what_was_begun_goes_with_its_plan(database):
    """Once the plan is deleted the same request makes a new one."""
    store = PlanStore(database, queue_limit=9)
    plan_id = accept(store, "a", sent="s")
    store.delete(tenant_id="t", plan_id=plan_id)
    assert begun(database) is None
    assert accept(store, "a", sent="s") == begun(database) != plan_id


def test_a_request_is_the_same_if_either_digest_is(database):
    """What it names may have changed between two that look at once: the second gets the first."""
    store = PlanStore(database, queue_limit=9)
    plan_id = accept(store, "a", sent="s", x=1)
    assert accept(store, "a", sent="s", x=2) == plan_id
    assert accept(store, "a", sent="other", x=1) == plan_id
    with pytest.raises(ServiceProblem, match="idempotency_key_reused"):
        accept(store, "a", sent="other", x=2)


def test_two_processes_with_one_key_make_one_plan(database):
    """Each looks first, sees nothing and stores at the same moment as all others."""
    stores = [PlanStore(database, queue_limit=99) for _ in range(4)]
    gate = threading.Barrier(len(stores))

    def ask(store):
        assert begun(database) is None
        gate.wait(timeout=20)
        return accept(store, "a", sent="s")

    with ThreadPoolExecutor(len(stores)) as pool:
        names = set(pool.map(ask, stores))
    assert names == {begun(database)}
    listed = stores[0].list(tenant_id="t", before_plan_id=None, limit=9)
    assert {plan.plan_id for plan in listed} == names
