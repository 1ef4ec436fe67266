"""A stress test holds a copy of its plan, so it goes when the plan is deleted."""

from sqlalchemy import select

from service.storage.database import migrate, reading
from service.storage.plans import PlanStore
from service.storage.tables import StressTestRow


def _plan(store: PlanStore, tenant_id: str = "t") -> str:
    accepted = store.accept(tenant_id=tenant_id, reference=None, solve_seconds=1.0, document={})
    return accepted.plan_id


def _test_of(store: PlanStore, plan_id: str, tenant_id: str = "t") -> str:
    accepted = store.accept(
        tenant_id=tenant_id,
        reference=None,
        solve_seconds=1.0,
        document={"stress_test": {}, "plan_id": plan_id},
        kind="stress",
        tested_plan_id=plan_id,
    )
    return accepted.plan_id


def _left(store: PlanStore, *names: str) -> list[bool]:
    return [store.read(tenant_id="t", plan_id=name) is not None for name in names]


def test_tests_go_with_their_plan_and_no_others(database):
    """Two tests of the deleted plan are gone; the test of another plan stays, and so does that."""
    store = PlanStore(database, queue_limit=20)
    gone, kept = _plan(store), _plan(store)
    tests = [_test_of(store, gone), _test_of(store, gone), _test_of(store, kept)]
    assert store.delete(tenant_id="t", plan_id=gone)
    assert _left(store, gone, *tests, kept) == [False, False, False, True, True]
    with reading(database) as connection:
        assert connection.execute(select(StressTestRow.stress_test_id)).scalars().all() == tests[2:]


def test_a_stranger_deletes_neither_plan_nor_tests(database):
    """Who has no such plan deletes nothing."""
    store = PlanStore(database, queue_limit=20)
    plan_id = _plan(store)
    test = _test_of(store, plan_id)
    assert not store.delete(tenant_id="stranger", plan_id=plan_id)
    assert _left(store, plan_id, test) == [True, True]


def test_a_test_can_be_deleted_alone(database):
    """The plan stays."""
    store = PlanStore(database, queue_limit=20)
    plan_id = _plan(store)
    test = _test_of(store, plan_id)
    assert store.delete(tenant_id="t", plan_id=test)
    assert _left(store, plan_id, test) == [True, False]


def test_tests_of_before_are_known_after_the_migration(database):
    """A test that was stored when nothing said whose it is goes with its plan, too."""
    store = PlanStore(database, queue_limit=20)
    plan_id = _plan(store)
    test = _test_of(store, plan_id)
    migrate(database, "0013")
    migrate(database, "head")
    assert store.delete(tenant_id="t", plan_id=plan_id)
    assert _left(store, plan_id, test) == [False, False]
