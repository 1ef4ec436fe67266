"""Each migration can be taken back and made again, with the same tables at the end."""

from importlib import import_module
from pkgutil import iter_modules
from threading import Thread
from time import sleep
from uuid import uuid4

import pytest
from sqlalchemy import inspect, select

from service.storage import database as database_module
from service.storage import postgresql
from service.storage.database import migrate, open_database, reading
from service.storage.events import PlanEvents
from service.storage.idempotency import RequestKey
from service.storage.migrations import versions
from service.storage.plans import PlanStore
from service.storage.postgresql import QUEUE_SCHEMA
from service.storage.tables import IdempotencyRow, PlanRow

MIGRATIONS = [
    import_module(f"service.storage.migrations.versions.{name}")
    for name in (
        "m0003_idempotency",
        "m0004_keys",
        "m0005_comparisons",
        "m0007_replans",
        "m0008_lasting",
        "m0009_webhooks",
        "m0010_library",
        "m0011_documents_last",
        "m0012_what_if",
        "m0013_reports",
        "m0014_stress_tests",
        "m0015_sent_digests",
    )
]

OF_ONE_KIND = {"m0006_job_queue": "postgresql", "m0011_documents_last": "sqlite"}
"""Migrations that change nothing on the other database."""

OF_NO_TABLE = {"m0016_former_plans"}
"""Migrations that change what rows say, and no table."""


def _shape(connection):
    found = inspect(connection)
    return {
        table: [(c["name"], repr(c["type"]), c["nullable"]) for c in found.get_columns(table)]
        for table in found.get_table_names()
    }


@pytest.mark.parametrize("migration", MIGRATIONS)
def test_down_and_up_again_gives_the_same_tables(tmp_path, migration):
    """Down to the revision before changes the tables, and up again makes what was there."""
    engine = open_database(tmp_path / "plans.sqlite3")
    shapes = []
    for revision in ("head", migration.down_revision, "head"):
        migrate(engine, revision)
        with reading(engine) as connection:
            shapes.append(_shape(connection))
    engine.dispose()
    newest, before, again = shapes
    assert before != newest == again


def test_all_go_down_one_by_one_and_up_again(database):
    """On either database steps down change tables, the last leaves nothing, and all come back."""

    def now() -> tuple[dict, bool]:
        with reading(database) as connection:
            schemas = inspect(connection).get_schema_names()
            return _shape(connection), QUEUE_SCHEMA in schemas

    newest = before = now()
    steps = sorted(name for _, name, _ in iter_modules(versions.__path__))
    assert len(steps) >= len(MIGRATIONS) + 3
    for name in reversed(steps):
        step = import_module(f"{versions.__name__}.{name}")
        migrate(database, step.down_revision or "base")
        after = now()
        is_of_the_other = OF_ONE_KIND.get(name, database.dialect.name) != database.dialect.name
        assert (before == after) is (is_of_the_other or name in OF_NO_TABLE), name
        before = after
    assert set(before[0]) == {"alembic_version"}
    migrate(database, "head")
    assert now() == newest


def test_migrations_lose_no_row_of_any_table(database):
    """A plan keeps its events and its key when its table is copied, down and up again."""
    store = PlanStore(database, queue_limit=3)
    plan_id = store.accept(
        tenant_id="t",
        reference="r",
        solve_seconds=1.0,
        document={},
        idempotency_key=RequestKey("k"),
    ).plan_id
    for revision in ("0007", "head"):
        migrate(database, revision)
    events = PlanEvents(database).after(tenant_id="t", plan_id=plan_id, number=0)
    assert [event.kind for event in events] == ["queued"]
    with reading(database) as connection:
        assert connection.execute(select(IdempotencyRow.plan_id)).scalars().all() == [plan_id]


def test_the_documents_of_a_plan_stand_behind_all_else():
    """SQLite reads through a document to reach what is behind it, so nothing is."""
    names = [column.key for column in PlanRow.__table__.columns]
    assert {name for name in names[-3:] if name.endswith("_document")} == set(names[-3:])
    assert not any(name.endswith("_document") for name in names[:-3])


def test_who_starts_while_another_one_migrates_waits_for_it(postgres, monkeypatch):
    """Longer than a caller would wait for a lock: a large table takes its time to change."""
    monkeypatch.setattr(postgresql, "_LOCK_MS", 200)
    monkeypatch.setattr(postgresql, "_STATEMENT_MS", 400)
    address = postgres.make(f"t{uuid4().hex}")
    other = postgresql.connect(address)
    opened = []
    starting = Thread(target=lambda: opened.append(open_database(address)))
    with other.begin() as connection:
        connection.exec_driver_sql(
            f"SELECT pg_advisory_xact_lock({database_module._MIGRATIONS_LOCK})"
        )
        starting.start()
        sleep(1)
        assert starting.is_alive()
    starting.join(60)
    other.dispose()
    with reading(opened[0]) as connection:
        usual = connection.exec_driver_sql("SHOW lock_timeout").scalar_one()
    opened[0].dispose()
    assert usual == "200ms"
