"""The log of a SQLite file belongs to the service that has it open, whoever else looks in."""

import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest
from sqlalchemy import Engine, text
from sqlalchemy.exc import OperationalError

from service.storage import sqlite_file
from service.storage.database import open_database, reading
from service.storage.plans import PlanStore

LOOK = (
    "import sqlite3, sys\n"
    "database = sqlite3.connect(sys.argv[1])\n"
    "print(database.execute('SELECT count(*) FROM t').fetchone()[0])\n"
    "database.close()\n"
)
"""A program that looks into a database: a backup, a shell, a second service that ends."""


def seen_by_others(path: Path) -> int:
    """How many rows another process sees, which closes the file as if it were the last."""
    told = subprocess.run(
        [sys.executable, "-c", LOOK, str(path)], capture_output=True, text=True, check=True
    )
    return int(told.stdout)


def opened(path: Path) -> Engine:
    """A database with one table."""
    engine = sqlite_file.connect(path)
    with engine.begin() as connection:
        connection.execute(text("CREATE TABLE t (n INTEGER)"))
    return engine


def test_a_program_that_looks_in_does_not_take_the_log_away(tmp_path):
    """After a second connection, and after another engine on the file, all commits are seen."""
    path = tmp_path / "plans.sqlite3"
    engine = opened(path)
    log = path.with_name("plans.sqlite3-wal")
    for number in range(1, 3):
        with engine.connect(), engine.begin() as connection:
            connection.execute(text("INSERT INTO t VALUES (1)"))
        sqlite_file.connect(path).dispose()
        assert seen_by_others(path) == number
        assert log.exists()
    engine.dispose()
    assert seen_by_others(path) == 2


def test_files_that_were_looked_into_are_closed_with_the_engine(tmp_path):
    """One more open file while connections come and go, and none after the engine's end."""
    path = tmp_path / "plans.sqlite3"

    def open_files() -> int:
        links = Path("/proc/self/fd").iterdir()
        return sum(link.is_symlink() and str(path) in str(link.readlink()) for link in links)

    engine = opened(path)
    for _ in range(3):
        with engine.connect(), engine.connect():
            assert open_files() <= 6
    engine.dispose()
    assert open_files() == 0


def test_what_is_deleted_is_overwritten(tmp_path):
    """The document of a deleted plan stands in the file no more, on any build of SQLite."""
    path = tmp_path / "plans.sqlite3"
    engine = open_database(path)
    with reading(engine) as connection:
        assert connection.exec_driver_sql("PRAGMA secure_delete").scalar_one() == 1
    store = PlanStore(engine, queue_limit=9)
    words = {"injury": "a knee that nobody must hear of"}
    plan = store.accept(tenant_id="a", reference=None, solve_seconds=1.0, document=words)
    with sqlite3.connect(path) as other:
        other.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    assert b"nobody must hear of" in path.read_bytes()
    store.delete(tenant_id="a", plan_id=plan.plan_id)
    with sqlite3.connect(path) as other:
        other.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    engine.dispose()
    left = b"".join(file.read_bytes() for file in tmp_path.iterdir())
    assert b"nobody must hear of" not in left


def test_a_fault_of_the_database_says_nothing_of_a_plan(tmp_path):
    """An error that reaches the log names the statement and not its values."""
    engine = open_database(tmp_path / "plans.sqlite3")
    query = text("SELECT :told FROM a_table_that_is_not_there")
    with pytest.raises(OperationalError) as caught, engine.begin() as connection:
        connection.execute(query, {"told": "a knee that nobody must hear of"})
    engine.dispose()
    assert "a_table_that_is_not_there" in str(caught.value)
    assert "nobody must hear of" not in str(caught.value)
