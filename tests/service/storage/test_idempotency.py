"""Keys of repeated requests: one transaction with the plan, 24 hours, one tenant."""

import pytest
from sqlalchemy import delete, update

from service.errors import ServiceProblem
from service.storage.database import writing
from service.storage.idempotency import known_plan
from service.storage.plans import PlanStore
from service.storage.tables import IdempotencyRow, PlanRow
from service.written_document import document_digest


@pytest.fixture
def store(database):
    """Plans on the fresh database; one may wait."""
    return PlanStore(database, queue_limit=1)


def accept(store, key, tenant="t", **document):
    """The name of the plan of a request with a key."""
    return store.accept(
        tenant_id=tenant, reference=None, solve_seconds=1.0, document=document, idempotency_key=key
    ).plan_id


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
