"""A copy of a database in use is whole, and serves when it is put in place."""

import stat
import subprocess

import pytest

from service import backup
from service.storage.database import open_database
from service.storage.plans import PlanStore
from tests.service.postgres import programs


def accept(store):
    """A plan just stored."""
    return store.accept(tenant_id="a", reference=None, solve_seconds=1.0, document={"x": 1})


def test_a_restored_copy_has_what_was_stored_before_it(tmp_path, monkeypatch):
    """The copy of an open database holds its plans, not later ones, and takes new ones."""
    path, copy = tmp_path / "plans.sqlite3", tmp_path / "copy.sqlite3"
    monkeypatch.setenv("HAULWRIGHT_DATABASE", str(path))
    engine = open_database(path)
    store = PlanStore(engine, queue_limit=9)
    before = accept(store)
    assert backup.main([str(copy)]) == 0
    accept(store)
    engine.dispose()
    assert stat.S_IMODE(copy.stat().st_mode) == 0o600
    for old in (path, path.with_name(path.name + "-wal"), path.with_name(path.name + "-shm")):
        old.unlink(missing_ok=True)
    copy.rename(path)
    restored = open_database(path)
    store = PlanStore(restored, queue_limit=9)
    plans = store.list(tenant_id="a", before_plan_id=None, limit=9)
    assert [plan.plan_id for plan in plans] == [before.plan_id]
    assert store.read(tenant_id="a", plan_id=before.plan_id).request_document == b'{"x": 1}'
    accept(store)
    restored.dispose()


@pytest.mark.parametrize("bad", ["missing", "garbage", "no plans"])
def test_no_copy_is_left_of_what_is_no_database(tmp_path, monkeypatch, bad):
    """A missing or broken database ends with a message and leaves no file behind."""
    path, copy = tmp_path / "plans.sqlite3", tmp_path / "copy.sqlite3"
    if bad != "missing":
        path.write_bytes(b"" if bad == "no plans" else b"garbage" * 1000)
    monkeypatch.setenv("HAULWRIGHT_DATABASE", str(path))
    with pytest.raises(SystemExit, match="No backup was made"):
        backup.main([str(copy)])
    assert not copy.exists()


def test_a_copy_overwrites_nothing(tmp_path, monkeypatch):
    """A file that is there already stays as it is."""
    path, copy = tmp_path / "plans.sqlite3", tmp_path / "copy.sqlite3"
    open_database(path).dispose()
    copy.write_bytes(b"precious")
    monkeypatch.setenv("HAULWRIGHT_DATABASE", str(path))
    with pytest.raises(SystemExit, match="No backup was made"):
        backup.main([str(copy)])
    assert copy.read_bytes() == b"precious"


def test_postgresql_is_copied_with_its_own_programs(postgres, tmp_path, monkeypatch):
    """pg_dump and pg_restore, as documented, bring the plans to a new database."""
    first, second = postgres.make("backed_up"), postgres.make("restored")
    monkeypatch.setenv("HAULWRIGHT_DATABASE_URL", first)
    with pytest.raises(SystemExit, match="pg_dump"):
        backup.main([str(tmp_path / "copy")])
    engine = open_database(first)
    plan = accept(PlanStore(engine, queue_limit=9))
    dump, restore = programs() / "pg_dump", programs() / "pg_restore"
    copy = str(tmp_path / "copy.dump")
    subprocess.run([dump, "--format=custom", f"--file={copy}", first], check=True, timeout=60)
    subprocess.run([restore, "--no-owner", f"--dbname={second}", copy], check=True, timeout=60)
    engine.dispose()
    restored = open_database(second)
    stored = PlanStore(restored, queue_limit=9)
    assert stored.read(tenant_id="a", plan_id=plan.plan_id) is not None
    assert accept(stored).state == "queued"
    restored.dispose()
