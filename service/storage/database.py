"""Opening the database: a durable SQLite file, brought to the newest shape before it is used."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from alembic import command
from alembic.config import Config
from sqlalchemy import (
    URL,
    BigInteger,
    Connection,
    Engine,
    create_engine,
    event,
    literal_column,
)
from sqlalchemy.exc import OperationalError

from service.errors import ServiceProblem

NOW_MS = literal_column(
    "CAST(ROUND((julianday('now') - 2440587.5) * 86400000) AS INTEGER)", BigInteger
)
"""The database's clock [ms since 1970-01-01 UTC]; the Julian day of that date is 2440587.5."""

_MOST_CONNECTIONS = 64
"""More than the web server's threads and the workers together, so that none waits for another."""

_PRAGMAS = (
    "PRAGMA busy_timeout = 5000",
    "PRAGMA journal_mode = WAL",
    # An answer of 202 is a promise, so a commit waits until the disk has the row.
    "PRAGMA synchronous = FULL",
    "PRAGMA foreign_keys = ON",
)


def open_database(path: Path) -> Engine:
    """An engine on the SQLite file at the path, made if it is missing, with the newest tables."""
    path.parent.mkdir(parents=True, exist_ok=True)
    engine = create_engine(
        URL.create("sqlite", database=str(path)), pool_size=_MOST_CONNECTIONS, max_overflow=0
    )
    event.listen(engine, "connect", _prepare_connection)
    event.listen(engine, "begin", _begin)
    with engine.begin() as connection:
        _migrate(connection)
    return engine


@contextmanager
def reading(engine: Engine) -> Iterator[Connection]:
    """A transaction that sees one state of the database and blocks nobody."""
    with storage_faults(), engine.execution_options(read_only=True).begin() as connection:
        yield connection


@contextmanager
def writing(engine: Engine) -> Iterator[Connection]:
    """A transaction that holds the write lock from its start, committed unless something raises."""
    with storage_faults(), engine.begin() as connection:
        yield connection


@contextmanager
def storage_faults() -> Iterator[None]:
    """Turn a full disk, a lock held too long or a lost file into the problem that callers know."""
    try:
        yield
    except OperationalError as error:
        raise ServiceProblem("storage_unavailable", headers={"Retry-After": "5"}) from error


def _prepare_connection(driver_connection: Any, _record: object) -> None:  # noqa: ANN401
    # The driver would begin transactions by itself, and too late: only before the first write.
    driver_connection.isolation_level = None
    for pragma in _PRAGMAS:
        driver_connection.execute(pragma)


def _begin(connection: Connection) -> None:
    read_only = connection.get_execution_options().get("read_only", False)
    connection.exec_driver_sql("BEGIN" if read_only else "BEGIN IMMEDIATE")


def _migrate(connection: Connection) -> None:
    configuration = Config()
    configuration.set_main_option("script_location", "service.storage:migrations")
    configuration.attributes["connection"] = connection
    command.upgrade(configuration, "head")
