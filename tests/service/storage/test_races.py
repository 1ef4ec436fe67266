"""The same written by several at once, as booking systems that retry do, on both engines."""

import threading
from concurrent.futures import ThreadPoolExecutor

import pytest
from sqlalchemy import event

from service.errors import ServiceProblem
from service.storage.library import EntryName, LibraryStore
from service.storage.lineage import Lineage
from service.storage.plans import PlanStore
from service.storage.releases import ReleaseStore
from service.storage.retention import RetentionStore
from service.storage.trip_reports import TripReportStore

CALLERS = 8


@pytest.fixture
def store(database):
    """Plans on the fresh database."""
    return PlanStore(database, queue_limit=99)


@pytest.fixture
def at_once(database):
    """Does some calls at once: on PostgreSQL all their transactions begin before any goes on.

    On SQLite, where only one transaction writes at a time, the calls begin together.
    """

    def do(*calls):
        barrier = threading.Barrier(len(calls))
        met = threading.local()

        def meet(_connection=None):
            if not getattr(met, "is_over", False):
                met.is_over = True
                barrier.wait(timeout=20)

        def call(one):
            if database.dialect.name == "sqlite":
                meet()
            return one()

        event.listen(database, "begin", meet)
        try:
            with ThreadPoolExecutor(len(calls)) as pool:
                return list(pool.map(call, calls))
        finally:
            event.remove(database, "begin", meet)

    return do


def _plan(store, former=None):
    return store.accept(
        tenant_id="a",
        reference="r",
        solve_seconds=1.0,
        document={},
        former_plan_id=former,
    ).plan_id


def _release(database, plan_id, by):
    return ReleaseStore(database).release(
        tenant_id="a",
        reference="r",
        plan_id=plan_id,
        released_by=by,
        key_id=None,
        outcome=b"{}",
    )


def _keep(database, plan_id, sent):
    return TripReportStore(database).keep(tenant_id="a", plan_id=plan_id, sent=sent, report=b"{}")


def test_one_report_sent_by_all_at_once_is_stored_once(database, store, at_once):
    """Everybody is given the same report."""
    plan_id = _plan(store)
    found = at_once(*[lambda: _keep(database, plan_id, b"{}")] * CALLERS)
    assert len({one.report_id for one in found}) == 1
    kept = TripReportStore(database).of_plans(tenant_id="a", plan_ids=[plan_id])
    assert kept == (found[0],)


def test_several_reports_at_once_are_all_stored(database, store, at_once, monkeypatch):
    """None stands in the way of another, and no more are left than are kept."""
    monkeypatch.setattr("service.storage.trip_reports.MOST_KEPT", 3)
    plan_id = _plan(store)
    calls = [lambda n=n: _keep(database, plan_id, str(n).encode()) for n in range(CALLERS)]
    assert len({one.report_id for one in at_once(*calls)}) == CALLERS
    assert len(TripReportStore(database).of_plans(tenant_id="a", plan_ids=[plan_id])) == 3


def test_one_plan_released_by_all_at_once_is_released_once(database, store, at_once):
    """Everybody is told the release of whoever came first."""
    plan_id = _plan(store)
    found = at_once(*[lambda n=n: _release(database, plan_id, f"desk {n}") for n in range(CALLERS)])
    assert [one.release_number for one in found] == [1] * CALLERS
    assert len({one.released_by for one in found}) == 1


def test_several_plans_released_at_once_are_released_one_after_another(database, store, at_once):
    """Each has a number of its own, and the last one holds."""
    plan_ids = [_plan(store) for _ in range(3)]
    found = at_once(*[lambda one=one: _release(database, one, "desk") for one in plan_ids])
    assert sorted(one.release_number for one in found) == [1, 2, 3]
    listed = ReleaseStore(database).list(tenant_id="a", reference="r", limit=9)
    assert [one.release_number for one in listed] == [3, 2, 1]


def _put(database, document, admits=lambda _: True):
    try:
        stored, is_new = LibraryStore(database).put(
            EntryName("a", "routes", "ridge"),
            title=None,
            reference=None,
            document=document,
            admits=admits,
        )
    except ServiceProblem as problem:
        return problem.code
    return stored.version, is_new


def test_a_new_entry_stored_by_all_at_once_is_new_to_one_of_them(database, at_once):
    """The others change it in place, as if they had come one after another."""
    texts = [str(n).encode() for n in range(CALLERS)]
    found = at_once(*[lambda text=text: _put(database, text) for text in texts])
    assert sorted(found) == [(1, False)] * (CALLERS - 1) + [(1, True)]
    stored = LibraryStore(database).read(EntryName("a", "routes", "ridge"))
    assert stored.versions == (1,)
    assert stored.document in texts


def test_an_entry_that_all_store_only_if_it_is_new_is_stored_by_one(database, at_once):
    """The others hear that it has changed since."""
    calls = [
        lambda n=n: _put(database, str(n).encode(), lambda now: now is None) for n in range(CALLERS)
    ]
    assert sorted(at_once(*calls), key=str) == [(1, True)] + ["changed_since"] * (CALLERS - 1)


def test_days_that_plans_are_kept_may_be_set_by_two_at_once(database, at_once):
    """One of the two holds."""
    retention = RetentionStore(database)
    at_once(*[lambda days=days: retention.keep(tenant_id="a", days=days) for days in (5, 6)])
    assert retention.kept()["a"] in (5, 6)


def test_neighbours_in_a_line_that_are_deleted_at_once_leave_it_whole(database, store, at_once):
    """Of p, b, c and d the middle two go: d comes of p."""
    for _ in range(5):
        line = [_plan(store)]
        for _ in range(3):
            line.append(_plan(store, line[-1]))
        first, *middle, last = line
        gone = at_once(
            *[lambda one=one: store.delete(tenant_id="a", plan_id=one) for one in middle]
        )
        assert gone == [True, True]
        left = Lineage(database).line_to(tenant_id="a", plan_id=last)
        assert [entry.plan_id for entry in left] == [first, last]


def test_a_report_on_a_plan_that_is_deleted_at_once_is_stored_with_it_or_not(
    database, store, at_once
):
    """Whoever comes second finds no plan; nothing is left, and nobody is told to ask again."""
    plan_id = _plan(store)

    def keep():
        try:
            return _keep(database, plan_id, b"{}")
        except ServiceProblem as problem:
            return problem.code

    told, gone = at_once(keep, lambda: store.delete(tenant_id="a", plan_id=plan_id))
    assert gone
    assert told == "not_found" or told.plan_id == plan_id
    assert TripReportStore(database).of_plans(tenant_id="a", plan_ids=[plan_id]) == ()
