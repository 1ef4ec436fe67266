"""A list of many plans is found by an index, on either database, whatever it is filtered by."""

import time
from uuid import uuid4

import pytest

from service.storage.database import open_database
from service.storage.plan_ids import first_plan_id, last_plan_id, new_plan_id
from service.storage.plans import PlanStore
from tests.growth.questions import pages, query_plan, retention_seconds, statements
from tests.growth.rows import LARGE, fill_postgresql, fill_sqlite, made_plans

PLANS = 20_000


@pytest.fixture(scope="module", params=["sqlite", "postgresql"])
def full(request, tmp_path_factory):
    """A database with twenty thousand plans."""
    if request.param == "sqlite":
        path = tmp_path_factory.mktemp("full") / "plans.sqlite3"
        engine = open_database(path)
        fill_sqlite(path, PLANS)
    else:
        address = request.getfixturevalue("postgres").make(f"t{uuid4().hex}")
        engine = open_database(address)
        fill_postgresql(address, PLANS)
    yield engine
    engine.dispose()


def test_the_generated_plans_are_all_there(full):
    """The large tenant has about sixty in a hundred, and its newest page is full."""
    store = PlanStore(full, queue_limit=9)
    page = store.list(tenant_id=LARGE, before_plan_id=None, limit=100)
    assert len(page) == 100
    plans = list(made_plans(PLANS, time.time_ns() // 10**6))
    assert len(plans) == PLANS
    assert 0.55 < sum(plan[1] == LARGE for plan in plans) / PLANS < 0.65


def test_every_filter_finds_its_page_by_an_index(full):
    """No filter reads the whole table, and no page is sorted that an index has in order."""
    store = PlanStore(full, queue_limit=9)
    asked = pages(store, time.time_ns() // 10**6)
    assert len(asked) > 10
    for name, page in asked.items():
        with statements(full) as seen:
            page()
        (statement, values), *_ = seen
        how = query_plan(full, statement, values)
        assert "plans_by_" in how or "plans_pkey" in how, (name, how)
        assert "SCAN plans" not in how, (name, how)
        assert "TEMP B-TREE" not in how, (name, how)
        if "reference" in name:
            assert "plans_by_reference" in how, (name, how)


def test_a_page_of_long_ago_reads_few_rows(full):
    """The time in a filter bounds the names too, so that newer plans are not read through."""
    month = 30 * 86_400_000
    now_ms = time.time_ns() // 10**6
    with statements(full) as seen:
        PlanStore(full, queue_limit=9).list(
            tenant_id=LARGE, before_plan_id=None, limit=9, created_before_ms=now_ms - 12 * month
        )
    bounds = [v for v in dict(enumerate_values(seen[0][1])).values() if str(v).startswith("plan_")]
    assert last_plan_id(now_ms - 12 * month) in bounds
    newest, oldest = first_plan_id(now_ms), first_plan_id(0)
    assert oldest < last_plan_id(now_ms - 12 * month) < newest < new_plan_id() < last_plan_id(None)


def test_a_page_in_the_middle_begins_where_the_page_before_ended(full):
    """Only the nearer of the two upper ends is asked for, whichever that is."""
    store = PlanStore(full, queue_limit=9)
    now_ms = time.time_ns() // 10**6
    (newest,) = store.list(tenant_id=LARGE, before_plan_id=None, limit=1)
    for before_ms in (None, now_ms - 10 * 86_400_000, now_ms + 10 * 86_400_000):
        with statements(full) as seen:
            store.list(
                tenant_id=LARGE, before_plan_id=newest.plan_id, limit=9, created_before_ms=before_ms
            )
        values = dict(enumerate_values(seen[0][1])).values()
        upper = min(newest.plan_id, last_plan_id(before_ms))
        assert [v for v in values if str(v).startswith("plan_")] == [first_plan_id(0), upper]


def enumerate_values(values):
    """Name and value of each value of a statement, however the database takes them."""
    return values.items() if isinstance(values, dict) else enumerate(values)


def test_what_ended_lately_is_found_by_an_index(full):
    """The figures of the queue read the plans of a quarter of an hour, not all that ever ended."""
    with statements(full) as seen:
        PlanStore(full, queue_limit=9).queue_figures()
    asked = [one for one in seen if "ORDER BY plans.finished_at_ms" in one[0]]
    # Of plans, and of stress tests.
    assert len(asked) == 2
    for how in (query_plan(full, *one) for one in asked):
        assert "plans_by_end" in how
        assert "finished_at_ms>" in how or "Index Cond: (finished_at_ms >=" in how


def test_old_plans_of_one_tenant_are_removed(full):
    """Retention removes what is older than a year, and the next run finds nothing."""
    removed, _ = retention_seconds(full, 365)
    assert removed > 0
    assert retention_seconds(full, 365)[0] == 0
