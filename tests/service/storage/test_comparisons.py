"""Comparisons in the database."""

import time
from dataclasses import replace

import pytest
from alembic.migration import MigrationContext
from alembic.operations import Operations
from sqlalchemy import inspect

from service.errors import Fault
from service.storage.comparisons import ComparisonStore, StoredComparison, StoredVariant
from service.storage.database import open_database, writing
from service.storage.migrations.versions import m0005_comparisons
from service.storage.plans import PlanStore

ROWS = (
    StoredVariant("base", (), "plan_" + "0" * 26, ()),
    StoredVariant("é", ("roster 3 -> 2",), None, (Fault("/variants/0", "x", "y"),)),
)


@pytest.fixture
def store(tmp_path):
    """A store in a database of its own."""
    engine = open_database(tmp_path / "plans.sqlite3")
    yield ComparisonStore(engine)
    engine.dispose()


def test_a_comparison_comes_back_as_it_was_stored(store):
    """Names, edits, plans and faults of every row come back in order."""
    comparison_id = store.add(
        tenant_id="a", reference="b 7", created_at_ms=12, rows=ROWS
    ).comparison_id
    told = store.read(tenant_id="a", comparison_id=comparison_id)
    assert told == StoredComparison(comparison_id, "b 7", 12, ROWS)


def test_another_tenant_and_another_name_find_nothing(store):
    """Who asks for somebody else's comparison, or for no name at all, gets none."""
    comparison_id = store.add(
        tenant_id="a", reference=None, created_at_ms=12, rows=ROWS
    ).comparison_id
    assert store.read(tenant_id="b", comparison_id=comparison_id) is None
    assert store.read(tenant_id="a", comparison_id="plan_" + "0" * 26) is None
    assert store.read(tenant_id="a", comparison_id="comparison_" + "0" * 26) is None


def test_of_one_base_there_is_one_comparison_if_so_asked(store):
    """The first comparison of a base comes back; another base, time or tenant has another."""
    now_ms = time.time_ns() // 1_000_000
    told = {"tenant_id": "a", "reference": None, "created_at_ms": now_ms, "rows": ROWS}
    first = store.add(**told, once=True)
    assert store.add(**told | {"rows": ROWS[:1]}, once=True) == first
    other = (replace(ROWS[0], plan_id="plan_" + "1" * 26), ROWS[1])
    others = [{"tenant_id": "b"}, {"created_at_ms": now_ms + 1}, {"rows": other}]
    ids = {store.add(**told | one, once=True).comparison_id for one in others}
    assert len(ids | {first.comparison_id, store.add(**told).comparison_id}) == 5


def test_a_comparison_is_found_by_the_plan_of_its_base(database):
    """Its own tenant finds it, as soon as it is stored and as long as that plan is there."""
    plans, comparisons = PlanStore(database, queue_limit=9), ComparisonStore(database)
    ours = {"tenant_id": "a", "reference": None}
    base = plans.accept(**ours, solve_seconds=1.0, document={})

    def found(**more):
        return comparisons.of_base(**{"tenant_id": "a", "plan_id": base.plan_id} | more)

    assert found() is None
    rows = (replace(ROWS[0], plan_id=base.plan_id), ROWS[1])
    stored = comparisons.add(**ours, created_at_ms=base.created_at_ms, rows=rows, once=True)
    assert found() == stored
    assert found(tenant_id="b") is None
    assert found(plan_id="plan_" + "1" * 26) is None
    assert plans.delete(tenant_id="a", plan_id=base.plan_id)
    assert found() is None


def test_the_migration_can_be_taken_back_and_made_again(tmp_path):
    """Down it removes the table of comparisons, up again it makes the same one."""
    engine = open_database(tmp_path / "plans.sqlite3")
    with writing(engine) as connection:
        context = MigrationContext.configure(connection)
        with Operations.context(context):
            before = inspect(connection).get_columns("comparisons")
            m0005_comparisons.downgrade()
            assert "comparisons" not in inspect(connection).get_table_names()
            m0005_comparisons.upgrade()
        assert repr(inspect(connection).get_columns("comparisons")) == repr(before)
    engine.dispose()
