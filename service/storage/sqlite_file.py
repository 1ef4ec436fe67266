"""A SQLite file: durable, with one writer at a time, and noticed when it is lost or replaced.

SQLite would make a lost file anew, empty, and would write the log of an old file into a new one
that took its place. Neither happens here: connections belong to the file that they were opened on.
"""

import logging
import os
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from sqlalchemy import URL, Connection, Engine, create_engine, event
from sqlalchemy.exc import DisconnectionError

_MOST_CONNECTIONS = 64
"""More than the web server's threads and the workers together, so that none waits for another."""

_PATH, _FILE = "haulwright_path", "haulwright_file"
_READ_ONLY = "haulwright_read_only"
_MAGIC = b"SQLite format 3\x00"
_PRAGMAS = (
    "PRAGMA busy_timeout = 5000",
    "PRAGMA journal_mode = WAL",
    # An answer of 202 is a promise, so a commit waits until the disk has the row.
    "PRAGMA synchronous = FULL",
    "PRAGMA foreign_keys = ON",
    # What is deleted is overwritten; builds of SQLite differ in what they do without being asked.
    "PRAGMA secure_delete = ON",
    # The log is moved into the file beside commits (`sqlite_log`); at 32 MB a commit does it.
    "PRAGMA wal_autocheckpoint = 8000",
)

logger = logging.getLogger(__name__)


def connect(path: Path) -> Engine:
    """An engine on the file at the path, made readable by its owner alone if it is missing."""
    path.parent.mkdir(parents=True, exist_ok=True)
    if not path.exists():
        os.close(os.open(path, os.O_CREAT | os.O_RDWR, 0o600))
    # Without the mode, a lost file would be made anew.
    address = f"file:{_quoted(path)}?mode=rw"
    engine = create_engine(
        URL.create("sqlite", database=address, query={"uri": "true"}),
        pool_size=_MOST_CONNECTIONS,
        max_overflow=0,
        pool_timeout=5,
        # Values of statements are requests and plans, and belong in no log.
        hide_parameters=True,
        execution_options={_PATH: path},
    )
    watch = _FileWatch(path)
    event.listen(engine, "do_connect", watch.before_connect)
    event.listen(engine, "connect", _prepare_connection)
    event.listen(engine, "connect", watch.after_connect)
    event.listen(engine, "checkout", watch.at_use)
    event.listen(engine, "begin", _begin)
    event.listen(engine, "engine_disposed", watch.close)
    return engine


def file_of(connection: Connection) -> object:
    """What names the file that a connection writes to; None for another database."""
    return connection.info.get(_FILE)


def require_same_file(engine: Engine, file: object) -> None:
    """Raise FileNotFoundError where another file, or none, is at an engine's path by now."""
    path = engine.get_execution_options().get(_PATH)
    if path is not None and _file_at(path) != file:
        raise FileNotFoundError("the file was deleted or replaced")


class _FileWatch:
    """Sees that every connection is used on the file that it was opened on.

    It closes no file that it has looked into while there may be connections. By closing a file a
    process loses all its locks on it, those of SQLite too. Then the next program that looks into
    the database takes itself for the only one, and deletes the log that this process writes to.
    """

    def __init__(self, path: Path) -> None:
        self._path = path
        self._looked_into: dict[object, int] = {}
        self._log = path.with_name(path.name + "-wal")
        self._lock = threading.Lock()
        self._seen: tuple[object, object] | None = None

    def before_connect(self, *_: object) -> None:
        """Refuse a foreign file, and set aside the log of a file that is there no more."""
        with self._lock:
            if self._seen is None:
                return
            self._require_database()
            seen_file, seen_log = self._seen
            if _file_at(self._path) != seen_file and seen_log == _file_at(self._log) is not None:
                aside = self._log.with_name(self._log.name + ".set-aside")
                logger.warning("the database was replaced; its old log is kept as %s", aside.name)
                self._log.rename(aside)
                self._path.with_name(self._path.name + "-shm").unlink(missing_ok=True)

    def _require_database(self) -> None:
        """Refuse a foreign file."""
        name = _file_at(self._path)
        if name not in self._looked_into:
            self._looked_into[name] = os.open(self._path, os.O_RDONLY)
        if os.pread(self._looked_into[name], len(_MAGIC), 0) != _MAGIC:
            raise FileNotFoundError("a foreign file is in the place of the database")

    def close(self, *_: object) -> None:
        """Close what was looked into, once all connections are closed."""
        with self._lock:
            while self._looked_into:
                os.close(self._looked_into.popitem()[1])

    def after_connect(self, _connection: object, record: Any) -> None:  # noqa: ANN401
        """Note the file that a new connection is on, and whether it may write there."""
        record.info[_FILE] = _file_at(self._path)
        # Where nobody may write, SQLite opens the file for reading, and such a connection stays so.
        record.info[_READ_ONLY] = not _is_writable(self._path)
        self._seen = record.info[_FILE], _file_at(self._log)

    def at_use(self, _connection: object, record: Any, _proxy: object) -> None:  # noqa: ANN401
        """Throw a connection away, and all like it, where its file is not at the path any more."""
        if record.info.get(_FILE) != _file_at(self._path):
            lost = DisconnectionError("the file was deleted or replaced")
            lost.invalidate_pool = True
            raise lost
        if record.info[_READ_ONLY] and _is_writable(self._path):
            raise DisconnectionError("the file may be written again")
        self._seen = record.info[_FILE], _file_at(self._log)


def _is_writable(path: Path) -> bool:
    return os.access(path, os.W_OK)


def _file_at(path: Path) -> tuple[int, int] | None:
    try:
        found = path.stat()
    except FileNotFoundError:
        return None
    return found.st_dev, found.st_ino


def _quoted(path: Path) -> str:
    """The path as a URI has it; `?`, `#` and `%` would mean something else."""
    return str(path).replace("%", "%25").replace("?", "%3f").replace("#", "%23")


@contextmanager
def whole_tables_may_change(engine: Engine) -> Iterator[Connection]:
    """A connection on which a table may be copied and replaced, with all that belongs to its rows.

    SQLite changes a table by copying it, and dropping the old one would delete, for example, the
    events of every plan. So foreign keys are not enforced here; they are checked at the end.
    """
    with engine.connect() as connection:
        if engine.dialect.name != "sqlite":
            yield connection
            return
        driver_connection: Any = connection.connection.driver_connection
        driver_connection.execute("PRAGMA foreign_keys = OFF")
        try:
            yield connection
            broken = driver_connection.execute("PRAGMA foreign_key_check").fetchone()
            if broken is not None:
                raise RuntimeError(f"a row of {broken[0]} has lost its row of {broken[2]}")
        finally:
            driver_connection.execute("PRAGMA foreign_keys = ON")


def _prepare_connection(driver_connection: Any, _record: object) -> None:  # noqa: ANN401
    # The driver would begin transactions by itself, and too late: only before the first write.
    driver_connection.isolation_level = None
    for pragma in _PRAGMAS:
        driver_connection.execute(pragma)


def _begin(connection: Connection) -> None:
    read_only = connection.get_execution_options().get("read_only", False)
    connection.exec_driver_sql("BEGIN" if read_only else "BEGIN IMMEDIATE")
