"""A stress test holds a copy of its plan, so it goes when the plan is deleted."""

import threading

import pytest
from sqlalchemy import delete, select, update

from service.errors import ServiceProblem
from service.storage.database import migrate, reading, writing
from service.storage.leases import PlanQueue
from service.storage.plans import PlanStore
from service.storage.retention import RetentionStore
from service.storage.stress_tests import StressTestStore, remove_tests_without_plan
from service.storage.tables import PlanRow, StressTestRow


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


def test_the_tests_of_a_plan_are_listed_newest_first_page_by_page(database):
    """Those of another plan or tenant stand in no other list, and a test that is gone in none."""
    store, tests = PlanStore(database, queue_limit=20), StressTestStore(database)
    plan_id, other = _plan(store), _plan(store)
    names = [_test_of(store, plan_id) for _ in range(3)]
    _test_of(store, other)

    def listed(before=None, limit=9, tenant_id="t") -> list[str]:
        found = tests.of_plan(
            tenant_id=tenant_id, plan_id=plan_id, before_test_id=before, limit=limit
        )
        assert {(one.state, one.finished_at_ms) for one in found} <= {("queued", None)}
        return [one.stress_test_id for one in found]

    newest_first = sorted(names, reverse=True)
    assert listed() == newest_first
    assert listed(limit=2) == newest_first[:2]
    assert listed(before=newest_first[1]) == newest_first[2:]
    assert listed(tenant_id="stranger") == []
    assert store.delete(tenant_id="t", plan_id=newest_first[0])
    assert listed() == newest_first[1:]


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


def _replan_of(store: PlanStore, plan_id: str, tenant_id: str = "t") -> str:
    accepted = store.accept(
        tenant_id=tenant_id,
        reference=None,
        solve_seconds=1.0,
        document={},
        former_plan_id=plan_id,
    )
    return accepted.plan_id


@pytest.mark.parametrize("ask", [_test_of, _replan_of])
def test_nothing_is_made_of_a_plan_that_is_gone(database, ask):
    """Deleted between the question and the answer, or of another tenant: there is no such plan."""
    store = PlanStore(database, queue_limit=20)
    gone, others = _plan(store), _plan(store, "other")
    store.delete(tenant_id="t", plan_id=gone)
    for plan_id in (gone, others):
        with pytest.raises(ServiceProblem, match="not_found"):
            ask(store, plan_id)
    assert store.list(tenant_id="t", before_plan_id=None, limit=9) == []
    with reading(database) as connection:
        assert connection.execute(select(PlanRow.plan_id)).scalars().all() == [others]


def test_what_is_erased_is_counted_in_plans(database):
    """Two stress tests of the one plan stand in the same table and are no plans."""
    store = PlanStore(database, queue_limit=20)
    plan_id = _plan(store)
    tests = [_test_of(store, plan_id) for _ in range(2)]
    with writing(database) as connection:
        connection.execute(update(PlanRow).values(reference="r"))
    assert RetentionStore(database).erase(tenant_id="t", reference="r").plans == 1
    with reading(database) as connection:
        left = select(PlanRow.plan_id).where(PlanRow.plan_id.in_([plan_id, *tests]))
        assert connection.execute(left).all() == []


def _removed_by_delete(database, plan_id: str) -> None:
    PlanStore(database, queue_limit=20).delete(tenant_id="t", plan_id=plan_id)


def _erased(database, _plan_id: str) -> None:
    RetentionStore(database).erase(tenant_id="t", reference="r")


def _removed_as_old(database, plan_id: str) -> None:
    with writing(database) as connection:
        connection.execute(
            update(PlanRow).where(PlanRow.plan_id == plan_id).values(finished_at_ms=1)
        )
    RetentionStore(database).keep(tenant_id="t", days=1)
    assert RetentionStore(database).remove_old() == 1


_REMOVALS = [_removed_by_delete, _erased, _removed_as_old]


@pytest.mark.parametrize("remove", _REMOVALS)
def test_a_test_goes_however_its_plan_goes(database, remove):
    """Deleted, erased or too old: a test of today on that plan goes, and that on another stays."""
    store, queue = PlanStore(database, queue_limit=20), PlanQueue(database, lease_ms=60_000)
    gone = _done(store, queue, "r")
    kept = _done(store, queue, "s")
    tests = [_test_of(store, gone), _test_of(store, kept)]
    remove(database, gone)
    assert _left(store, gone, kept, *tests) == [False, True, False, True]


def _done(store: PlanStore, queue: PlanQueue, reference: str) -> str:
    made = store.accept(tenant_id="t", reference=reference, solve_seconds=1.0, document={})
    claim = queue.claim(made.plan_id)
    queue.finish(claim, state="done", outcome_kind="solved", outcome=b"{}")
    return made.plan_id


@pytest.mark.parametrize("remove", _REMOVALS)
def test_a_test_that_is_just_being_stored_goes_with_its_plan(database, remove):
    """Who deletes waits for who stores; on SQLite nobody writes beside another anyhow."""
    store, queue = PlanStore(database, queue_limit=20), PlanQueue(database, lease_ms=60_000)
    gone = _done(store, queue, "r")
    removal = threading.Thread(target=remove, args=(database, gone))
    waited = []

    def enqueue(_connection, _plan_id):
        # The test is written, and nothing of it is committed yet.
        removal.start()
        removal.join(1.0)
        waited.append(removal.is_alive())

    storing = PlanStore(database, queue_limit=20, enqueue=enqueue)
    test = _test_of(storing, gone)
    removal.join(10.0)
    assert waited == [True]
    assert _left(store, gone, test) == [False, False]


def test_a_replan_that_is_just_being_stored_is_erased_with_its_reference(database):
    """Erasing a reference waits for a re-plan of one of its plans, and takes that along."""
    store, queue = PlanStore(database, queue_limit=20), PlanQueue(database, lease_ms=60_000)
    gone = _done(store, queue, "r")
    removal = threading.Thread(target=_erased, args=(database, gone))

    def enqueue(_connection, _plan_id):
        removal.start()
        removal.join(1.0)

    storing = PlanStore(database, queue_limit=20, enqueue=enqueue)
    replan = storing.accept(
        tenant_id="t", reference="r", solve_seconds=1.0, document={}, former_plan_id=gone
    ).plan_id
    removal.join(10.0)
    assert _left(store, gone, replan) == [False, False]


def test_what_earlier_versions_left_goes_for_its_tenant(database):
    """A test whose plan has gone without it is removed with the next plans, and nobody else's."""
    store = PlanStore(database, queue_limit=20)
    tests = []
    for tenant_id in ("t", "other"):
        plan_id = _plan(store, tenant_id)
        tests.append(_test_of(store, plan_id, tenant_id))
        with writing(database) as connection:
            connection.execute(delete(PlanRow).where(PlanRow.plan_id == plan_id))
    with writing(database) as connection:
        remove_tests_without_plan(connection, tenant_id="t")
    with reading(database) as connection:
        assert connection.execute(select(PlanRow.plan_id)).scalars().all() == tests[1:]
