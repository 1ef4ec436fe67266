"""A database that is lost, replaced, broken or locked: told as that, and healed without restart."""

import sqlite3
import stat
from collections.abc import Callable
from pathlib import Path

import pytest
from sqlalchemy import Engine

from service.errors import ServiceProblem
from service.storage import sqlite_file
from service.storage.database import migrate, open_database, reading
from service.storage.plans import PlanStore


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Where the database is."""
    return tmp_path / "plans.sqlite3"


@pytest.fixture
def database(path, monkeypatch) -> Engine:
    """A fresh database that waits for a lock no longer than a moment."""
    pragmas = ("PRAGMA busy_timeout = 50", *sqlite_file._PRAGMAS[1:])
    monkeypatch.setattr(sqlite_file, "_PRAGMAS", pragmas)
    engine = open_database(path)
    yield engine
    engine.dispose()


@pytest.fixture
def store(database) -> PlanStore:
    """Plans on the fresh database."""
    return PlanStore(database, queue_limit=100)


def accept(store: PlanStore) -> str:
    """The name of a plan just accepted."""
    plan = store.accept(tenant_id="t", reference=None, solve_seconds=1.0, document={})
    return plan.plan_id


def is_unavailable(ask: Callable[[], object]) -> bool:
    """Whether the answer is that the storage is unavailable, and when to come again."""
    try:
        ask()
    except ServiceProblem as problem:
        return problem.code == "storage_unavailable" and "Retry-After" in problem.headers
    return False


def is_out(store: PlanStore) -> bool:
    """Whether accepting, listing and the probe all say that the storage is unavailable."""
    said = [
        is_unavailable(lambda: accept(store)),
        is_unavailable(
            lambda: store.list(tenant_id="t", reference=None, before_plan_id=None, limit=1)
        ),
        is_unavailable(store.probe),
    ]
    assert len(set(said)) == 1, said
    return said[0]


def test_a_deleted_database_is_unavailable_and_never_made_anew(store, path):
    """Once the file is deleted nothing is accepted, and no empty file takes its place."""
    accept(store)
    path.unlink()
    assert is_out(store)
    assert not path.exists()


def test_a_database_that_was_moved_away_heals_when_it_is_back(store, path):
    """What was accepted before is there again once the file is, and more is accepted."""
    plan_id = accept(store)
    path.rename(path.with_suffix(".away"))
    assert is_out(store)
    path.with_suffix(".away").rename(path)
    assert not is_out(store)
    assert store.read(tenant_id="t", plan_id=plan_id) is not None


@pytest.mark.parametrize("content", [b"", b"no database at all" * 500], ids=["empty", "garbage"])
def test_a_foreign_file_in_its_place_is_unavailable(store, path, content):
    """An empty file or garbage in place of the database is no reason for an error of ours."""
    accept(store)
    path.rename(path.with_suffix(".away"))
    path.write_bytes(content)
    assert is_out(store)
    path.unlink()
    path.with_suffix(".away").rename(path)
    assert not is_out(store)


def test_a_backup_in_its_place_is_taken(store, path, tmp_path):
    """A sound database put into the place of the old one is used without a restart."""
    accept(store)
    backup = open_database(tmp_path / "backup.sqlite3")
    kept = accept(PlanStore(backup, queue_limit=5))
    backup.dispose()
    (tmp_path / "backup.sqlite3").rename(path)
    assert not is_out(store)
    assert store.read(tenant_id="t", plan_id=kept) is not None


def test_a_corrupt_database_is_unavailable(store, path, database):
    """A file whose pages were overwritten is told as unavailable, not as an error of ours."""
    for _ in range(50):
        accept(store)
    database.dispose()
    size = path.stat().st_size
    with path.open("r+b") as file:
        file.seek(4096)
        file.write(b"\xff" * (size - 4096))
    assert is_unavailable(lambda: accept(store))


def test_a_locked_database_is_unavailable_until_the_lock_is_gone(store, path):
    """While another program holds the write lock nothing is accepted; afterwards it is."""
    other = sqlite3.connect(path, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    assert is_unavailable(lambda: accept(store))
    assert is_unavailable(store.probe)
    other.execute("ROLLBACK")
    other.close()
    assert not is_out(store)


def test_connections_of_a_read_only_time_are_not_used_again(store, database, monkeypatch):
    """SQLite opens a file that nobody may write for reading; no such connection outlives that."""
    accept(store)
    with monkeypatch.context() as meanwhile:
        meanwhile.setattr(sqlite_file, "_is_writable", lambda _path: False)
        read_only = (*sqlite_file._PRAGMAS, "PRAGMA query_only = ON")
        meanwhile.setattr(sqlite_file, "_PRAGMAS", read_only)
        database.dispose()
        with database.connect(), database.connect():
            assert is_unavailable(lambda: accept(store))
        assert store.list(tenant_id="t", reference=None, before_plan_id=None, limit=9)
    for _ in range(4):
        accept(store)


def test_the_database_is_readable_by_its_owner_alone(database, path):
    """Neither group nor others may read the file or its log."""
    for file in (path, path.with_name(path.name + "-wal")):
        assert stat.S_IMODE(file.stat().st_mode) == 0o600


def test_migrations_go_down_and_up_again(database, store, path):
    """Every migration can be undone and done again, and a plan that waits survives both."""
    plan_id = accept(store)
    migrate(database, "0001")
    with reading(database) as connection:
        tables = connection.exec_driver_sql("SELECT name FROM sqlite_master").scalars().all()
    assert "plan_events" not in tables
    migrate(database, "head")
    assert store.read(tenant_id="t", plan_id=plan_id).summary.state == "queued"
    migrate(database, "base")
    migrate(database, "head")
    assert store.read(tenant_id="t", plan_id=plan_id) is None
