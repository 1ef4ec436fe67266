"""Moves what was committed from the log of a SQLite file into the file, beside those who write.

SQLite itself does so in the commit that makes the log too long: one caller in sixty would wait for
two more writes to the disk, and all who come meanwhile behind that one.
"""

import logging
import sqlite3
from contextlib import closing
from typing import Any

from sqlalchemy import Connection, Engine, event

from service.storage.database import storage_faults

FEWEST_COMMITS = 20
"""How many commits are worth a move [1]: a quarter of a megabyte or more."""

logger = logging.getLogger(__name__)


class CommittedLog:
    """The log of one engine's file; there is none on another database."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine
        self._commits = 0
        if engine.dialect.name == "sqlite":
            event.listen(engine, "commit", self._count)

    def move(self) -> None:
        """Move what there is, if it is worth it; nobody who reads or writes waits for that.

        A move that fails harms nobody, since the log still has everything.
        """
        if self._commits < FEWEST_COMMITS:
            return
        self._commits = 0
        with storage_faults(), closing(self._engine.raw_connection()) as connection:
            driver_connection: Any = connection.driver_connection
            try:
                driver_connection.execute("PRAGMA wal_checkpoint(PASSIVE)").fetchall()
            except sqlite3.Error as error:
                logger.warning("storage: the log stays as it is, %s", error)

    def _count(self, connection: Connection) -> None:
        # Two threads that count at once may count one commit.
        if not connection.get_execution_options().get("read_only", False):
            self._commits += 1
