"""Moves what was committed from the log of a SQLite file into the file, beside those who write.

SQLite itself does so in the commit that makes the log too long: one caller in sixty would wait for
two more writes to the disk, and all who come meanwhile behind that one.

A log that was moved keeps its bytes until others take their place. So after a deletion it is cut to
nothing: what people asked to have erased must not stay in it.
"""

import logging
import sqlite3
import time
from contextlib import closing
from typing import Any

from sqlalchemy import Connection, Engine, event

from service.errors import ServiceProblem
from service.storage.database import in_turn, storage_faults

FEWEST_COMMITS = 20
"""How many commits are worth a move [1]: a quarter of a megabyte or more."""

_DELETED = "haulwright_deleted"
_AGAIN_SECONDS = 1.0
"""Time between two tries to end a log that somebody still reads [s]."""
_HOLD_MS = 50
"""Time for which writers are held up while readers leave the log [ms]."""
_PROGRAM_PAUSE_SECONDS = 0.1

logger = logging.getLogger(__name__)


def note_deletion(connection: Connection) -> None:
    """Note that a transaction deletes for good, so that the log ends soon after its commit."""
    connection.info[_DELETED] = True


def end_log(engine: Engine, *, seconds: float) -> bool:
    """Cut the log to nothing, within so much time [s]; False where somebody reads all along."""
    until = time.monotonic() + seconds
    while not _is_ended(engine):
        if time.monotonic() >= until:
            return False
        time.sleep(_PROGRAM_PAUSE_SECONDS)
    return True


def _is_ended(engine: Engine) -> bool:
    """Try to end the log; whoever writes waits for a moment only."""
    if engine.dialect.name != "sqlite":
        return True
    with storage_faults(), closing(engine.raw_connection()) as connection:
        driver_connection: Any = connection.driver_connection
        # The long part needs no turn.
        driver_connection.execute("PRAGMA wal_checkpoint(PASSIVE)").fetchall()
        usual_ms = driver_connection.execute("PRAGMA busy_timeout").fetchone()[0]
        with in_turn(engine):
            driver_connection.execute(f"PRAGMA busy_timeout = {_HOLD_MS}")
            try:
                ended = driver_connection.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()
            finally:
                driver_connection.execute(f"PRAGMA busy_timeout = {usual_ms}")
    return bool(ended[0] == 0)


class CommittedLog:
    """The log of one engine's file; there is none on another database."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine
        self._commits = 0
        self._holds_deleted = False
        self._end_at = 0.0
        if engine.dialect.name == "sqlite":
            event.listen(engine, "commit", self._count)
            event.listen(engine, "rollback", _forget)

    def move(self) -> None:
        """Move what there is, if it is worth it; nobody who reads or writes waits for that.

        A move that fails harms nobody, since the log still has everything. After a deletion the
        log has to end: while somebody reads it, that is tried again each second.
        """
        if self._holds_deleted and time.monotonic() >= self._end_at:
            self._end()
        if self._commits < FEWEST_COMMITS:
            return
        self._commits = 0
        with storage_faults(), closing(self._engine.raw_connection()) as connection:
            driver_connection: Any = connection.driver_connection
            try:
                driver_connection.execute("PRAGMA wal_checkpoint(PASSIVE)").fetchall()
            except sqlite3.Error as error:
                logger.warning("storage: the log stays as it is, %s", error)

    def _end(self) -> None:
        # First, because somebody may delete meanwhile.
        self._holds_deleted = False
        try:
            is_ended = _is_ended(self._engine)
        except (sqlite3.Error, ServiceProblem) as error:
            logger.warning("storage: what was deleted is still in the log, %s", error)
            is_ended = False
        if not is_ended:
            self._holds_deleted = True
            self._end_at = time.monotonic() + _AGAIN_SECONDS

    def _count(self, connection: Connection) -> None:
        # Two threads that count at once may count one commit.
        if not connection.get_execution_options().get("read_only", False):
            self._commits += 1
        if connection.info.pop(_DELETED, False):
            self._holds_deleted = True


def _forget(connection: Connection) -> None:
    connection.info.pop(_DELETED, None)
