"""Changes of plans under a condition, on either kind of database."""

import threading
import time

import pytest
from sqlalchemy import select, update

from service.errors import ServiceProblem
from service.storage.database import reading, writing
from service.storage.tables import PlanRow
from service.storage.unchanged_plans import as_read
from service.storage.wishes import Wishes
from tests.service.storage.plans_in_store import accept, state_of

WAITING = as_read(state="queued", attempt=0, started_at_ms=None, progress_document=None)

BEGUN = as_read(state="running", attempt=1, started_at_ms=5, progress_document=None)


def changes(store, database):
    """The three changes, each as a caller may ask for it."""
    wishes = Wishes(database)
    return {"delete": store.delete, "cancel": wishes.cancel, "finish": wishes.finish}


@pytest.mark.parametrize("name", ["delete", "cancel", "finish"])
def test_a_change_that_waited_for_another_one_looks_again(store, database, name):
    """A worker tells how far it is while the change is on its way: it is refused, all stays."""
    plan_id, came = accept(store), []

    def change():
        try:
            changes(store, database)[name](tenant_id="t", plan_id=plan_id, only_if=BEGUN)
        except ServiceProblem as problem:
            came.append(problem.code)

    with writing(database) as connection:
        begun = {"state": "running", "attempt": 1, "started_at_ms": 5, "lease_until_ms": 9}
        connection.execute(update(PlanRow).values(begun))
    late = threading.Thread(target=change)
    with writing(database) as connection:
        connection.execute(update(PlanRow).values(progress_document=b"{}"))
        late.start()
        time.sleep(0.3)
    late.join()
    assert came == ["changed_since"]
    assert state_of(store, plan_id) == ("running", 1)
    with reading(database) as connection:
        assert connection.execute(select(PlanRow.wish)).scalar_one() is None


def test_a_condition_that_holds_is_no_hindrance(store, database):
    """A plan that waits as it was read is cancelled or deleted; of none there is nothing to say."""
    kept, gone = accept(store), accept(store)
    wishes = Wishes(database)
    assert wishes.cancel(tenant_id="t", plan_id=kept, only_if=WAITING)
    assert store.delete(tenant_id="t", plan_id=gone, only_if=WAITING)
    assert not store.delete(tenant_id="t", plan_id=gone, only_if=WAITING)
    assert not wishes.cancel(tenant_id="t", plan_id=gone, only_if=WAITING)
    assert not wishes.finish(tenant_id="t", plan_id=gone, only_if=WAITING)
