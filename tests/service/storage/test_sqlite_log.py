"""What was committed goes from the log of a SQLite file into the file, beside those who write."""

import logging
import shutil
import sqlite3
import time
from pathlib import Path
from types import SimpleNamespace

import pytest
from sqlalchemy import Engine, text

from service.errors import ServiceProblem
from service.storage import sqlite_file
from service.storage.database import reading, writing
from service.storage.sqlite_log import FEWEST_COMMITS, CommittedLog, end_log, note_deletion

PAGE_BYTES = 4096
MARK = b"allergic-to-nuts"


@pytest.fixture
def file(tmp_path) -> Path:
    """Where the database is."""
    return tmp_path / "plans.sqlite3"


@pytest.fixture
def engine(file) -> Engine:
    """A database with one table."""
    made = sqlite_file.connect(file)
    with writing(made) as connection:
        connection.execute(text("CREATE TABLE t (words TEXT)"))
    yield made
    made.dispose()


def commit(engine: Engine, times: int, *, size: int = 10) -> None:
    """Store so many rows of a size [byte], each in a transaction of its own."""
    for _ in range(times):
        with writing(engine) as connection:
            connection.execute(text("INSERT INTO t VALUES (:words)"), {"words": "w" * size})


def rows_without_log(file: Path) -> int | None:
    """How many rows the file has by itself; None where it has not even the table."""
    alone = file.with_name("alone.sqlite3")
    shutil.copy(file, alone)
    database = sqlite3.connect(alone)
    try:
        return int(database.execute("SELECT count(*) FROM t").fetchone()[0])
    except sqlite3.DatabaseError:
        return None
    finally:
        database.close()
        alone.unlink()


def test_no_commit_of_a_caller_moves_the_log(engine, file):
    """After six megabytes the file is as it was before the first, and the log has them all."""
    commit(engine, 60, size=100_000)
    assert rows_without_log(file) is None
    assert file.with_name(file.name + "-wal").stat().st_size > 6_000_000


def test_a_move_brings_everything_into_the_file(engine, file):
    """Twenty commits are worth it; then nothing is left to do until there are twenty more."""
    log = CommittedLog(engine)
    commit(engine, FEWEST_COMMITS - 1)
    log.move()
    assert rows_without_log(file) is None
    commit(engine, 1)
    log.move()
    assert rows_without_log(file) == FEWEST_COMMITS
    commit(engine, 1)
    log.move()
    assert rows_without_log(file) == FEWEST_COMMITS


def test_readers_are_not_counted(engine, file):
    """Looking at plans makes no log."""
    log = CommittedLog(engine)
    for _ in range(FEWEST_COMMITS):
        with reading(engine) as connection:
            connection.execute(text("SELECT count(*) FROM t"))
    log.move()
    assert rows_without_log(file) is None


def test_a_move_waits_for_nobody_who_writes(engine, file):
    """In the midst of a transaction of somebody else, what was committed before is moved."""
    log = CommittedLog(engine)
    commit(engine, FEWEST_COMMITS)
    with writing(engine) as connection:
        connection.execute(text("INSERT INTO t VALUES ('last')"))
        log.move()
        assert rows_without_log(file) == FEWEST_COMMITS


def test_a_log_that_is_moved_does_not_grow_for_ever(engine, file):
    """Ten times as many commits take hardly more room than the first did."""
    log = CommittedLog(engine)
    sizes = []
    for _ in range(10):
        commit(engine, FEWEST_COMMITS, size=10_000)
        log.move()
        sizes.append(file.with_name(file.name + "-wal").stat().st_size)
    assert sizes[-1] <= sizes[0] + FEWEST_COMMITS * PAGE_BYTES


def test_a_file_that_is_gone_is_a_fault_of_the_storage(engine, file):
    """Whoever looks after the log hears of it as of every other fault."""
    log = CommittedLog(engine)
    commit(engine, FEWEST_COMMITS)
    file.unlink()
    with pytest.raises(ServiceProblem, match="storage_unavailable"):
        log.move()


def test_a_move_that_fails_is_only_said(caplog):
    """A full disk keeps the log as it is; one line of the log says so."""

    class Full:
        """A connection to a database on a full disk."""

        def execute(self, _statement: str) -> None:
            """Find no room."""
            raise sqlite3.OperationalError("database or disk is full")

    closed = []
    made = SimpleNamespace(driver_connection=Full(), close=lambda: closed.append(True))
    none = SimpleNamespace(name="other")
    log = CommittedLog(SimpleNamespace(dialect=none, raw_connection=lambda: made))
    log._commits = FEWEST_COMMITS
    with caplog.at_level(logging.WARNING):
        log.move()
        log.move()
    assert [one.getMessage() for one in caplog.records] == [
        "storage: the log stays as it is, database or disk is full"
    ]
    assert closed == [True]


def marks(file: Path) -> int:
    """How often what somebody said of people stands in the file and in its log."""
    log = file.with_name(file.name + "-wal")
    return file.read_bytes().count(MARK) + (log.read_bytes().count(MARK) if log.exists() else 0)


def delete_all(engine: Engine) -> None:
    """Delete every row, and note that."""
    with writing(engine) as connection:
        connection.execute(text("DELETE FROM t"))
        note_deletion(connection)


def test_what_was_deleted_is_in_the_log_no_more(engine, file):
    """One deletion is worth a move at once, and that leaves nothing of the log."""
    log = CommittedLog(engine)
    with writing(engine) as connection:
        connection.execute(text("INSERT INTO t VALUES (:words)"), {"words": MARK.decode()})
    delete_all(engine)
    assert marks(file) > 0
    log.move()
    assert marks(file) == 0
    assert file.with_name(file.name + "-wal").stat().st_size == 0


def test_a_deletion_that_was_taken_back_is_none(engine, file):
    """What is rolled back leaves the log as it is, also for who commits next."""
    log = CommittedLog(engine)
    with writing(engine) as connection:
        note_deletion(connection)
        connection.rollback()
    commit(engine, 1)
    log.move()
    assert rows_without_log(file) is None


def test_a_reader_delays_the_end_of_the_log_and_holds_up_nobody(engine, file, monkeypatch):
    """While somebody reads what was, others write on; the log ends once the reader has gone."""
    monkeypatch.setattr("service.storage.sqlite_log._AGAIN_SECONDS", 0.0)
    log = CommittedLog(engine)
    with writing(engine) as connection:
        connection.execute(text("INSERT INTO t VALUES (:words)"), {"words": MARK.decode()})
    with reading(engine) as reader:
        assert reader.execute(text("SELECT count(*) FROM t")).scalar() == 1
        delete_all(engine)
        begin = time.monotonic()
        log.move()
        commit(engine, 1)
        assert time.monotonic() - begin < 1
        assert marks(file) > 0
    log.move()
    assert marks(file) == 0


def test_whoever_has_to_wait_waits_a_second_before_the_next_try(engine, file):
    """A backup reads for minutes, and writers must not wait for each look in between."""
    log = CommittedLog(engine)
    with reading(engine) as reader:
        reader.execute(text("SELECT count(*) FROM t"))
        delete_all(engine)
        log.move()
    before = file.with_name(file.name + "-wal").stat().st_size
    log.move()
    assert file.with_name(file.name + "-wal").stat().st_size == before > 0


def test_a_program_waits_until_the_log_has_ended(engine, file):
    """It is told whether nothing is left; another database has no such log."""
    with writing(engine) as connection:
        connection.execute(text("INSERT INTO t VALUES (:words)"), {"words": MARK.decode()})
    with reading(engine) as reader:
        reader.execute(text("SELECT count(*) FROM t"))
        delete_all(engine)
        assert not end_log(engine, seconds=0.3)
    assert end_log(engine, seconds=5)
    assert marks(file) == 0
    assert end_log(SimpleNamespace(dialect=SimpleNamespace(name="other")), seconds=0)
