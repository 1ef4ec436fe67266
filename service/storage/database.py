"""Opening the database, brought to the newest shape before it is used, and its transactions.

A path opens a durable SQLite file; an address `postgresql://...` opens a database of PostgreSQL.
"""

import logging
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from alembic import command
from alembic.config import Config
from sqlalchemy import Connection, Engine, text
from sqlalchemy.exc import DataError, DBAPIError, IntegrityError
from sqlalchemy.exc import TimeoutError as PoolTimeoutError

from service.errors import ServiceProblem
from service.storage import postgresql, sqlite_file

_MIGRATIONS_LOCK = 4711_0001
_LOCK_SECONDS = 5.0
_WRITERS = threading.Lock()
"""Writers of one process take turns here, because SQLite lets those who wait for it sleep long."""

logger = logging.getLogger(__name__)


def open_database(at: Path | str) -> Engine:
    """An engine on the SQLite file or PostgreSQL database, with the newest tables.

    A file is made if it is missing; only its owner may read it.
    """
    engine = sqlite_file.connect(at) if isinstance(at, Path) else postgresql.connect(at)
    migrate(engine, "head")
    return engine


def migrate(engine: Engine, revision: str) -> None:
    """Bring the tables to a revision, up or down; "base" is the one before all tables."""
    with sqlite_file.whole_tables_may_change(engine) as connection, connection.begin():
        if engine.dialect.name == "postgresql":
            # A large table takes longer to change than a caller would wait.
            for limit in ("lock_timeout", "statement_timeout"):
                connection.execute(text(f"SET LOCAL {limit} = 0"))
            # Services that start together take turns; SQLite's write lock does the same.
            connection.execute(text(f"SELECT pg_advisory_xact_lock({_MIGRATIONS_LOCK})"))
        configuration = Config()
        configuration.set_main_option("script_location", "service.storage:migrations")
        configuration.attributes["connection"] = connection
        if revision == "head":
            command.upgrade(configuration, revision)
        else:
            command.downgrade(configuration, revision)


@contextmanager
def reading(engine: Engine) -> Iterator[Connection]:
    """A transaction that blocks nobody.

    On SQLite it sees one state of the database; on PostgreSQL each of its statements sees what is
    committed when it begins, so that the second may see more than the first.
    """
    with storage_faults(), engine.execution_options(read_only=True).begin() as connection:
        yield connection


@contextmanager
def writing(engine: Engine) -> Iterator[Connection]:
    """A transaction that holds SQLite's write lock from its start, committed unless one raises."""
    with storage_faults(), in_turn(engine), transaction(engine) as connection:
        yield connection


@contextmanager
def transaction(engine: Engine) -> Iterator[Connection]:
    """A transaction of a writer whose turn it is; faults are raised as the driver has them."""
    with engine.begin() as connection:
        file = sqlite_file.file_of(connection)
        yield connection
    # A commit into a file that was deleted meanwhile is no promise to anybody.
    sqlite_file.require_same_file(engine, file)


@contextmanager
def storage_faults() -> Iterator[None]:
    """Turn every fault of the storage into the problem that callers know.

    A full disk, a lock held too long, a lost, foreign or broken file, a server that is gone.
    """
    try:
        yield
    except (IntegrityError, DataError):
        raise
    except (DBAPIError, PoolTimeoutError, OSError) as error:
        logger.warning("storage: %s", str(getattr(error, "orig", error)).partition("\n")[0])
        raise ServiceProblem("storage_unavailable", headers={"Retry-After": "5"}) from error


@contextmanager
def in_turn(engine: Engine) -> Iterator[None]:
    """Wait until no other thread of this process writes to SQLite; raises TimeoutError."""
    if engine.dialect.name != "sqlite":
        yield
        return
    if not _WRITERS.acquire(timeout=_LOCK_SECONDS):
        raise TimeoutError("other writers of this process hold the database")
    try:
        yield
    finally:
        _WRITERS.release()


def one_at_a_time(connection: Connection, *what: str) -> None:
    """Wait for every other transaction that said the same words here, until it ends.

    What such a transaction stored is seen from here on. On SQLite all who write do so anyhow.
    """
    if connection.dialect.name == "postgresql":
        lock = text("SELECT pg_advisory_xact_lock(hashtextextended(:words, 0))")
        connection.execute(lock, {"words": "\n".join(what)})
