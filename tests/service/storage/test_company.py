"""Callers who write at the same time are committed together, and each hears of their own work."""

import threading
from collections.abc import Callable

import pytest
from sqlalchemy import Connection, Engine, event, insert, select
from sqlalchemy.exc import IntegrityError, OperationalError

from service.errors import ServiceProblem
from service.storage import database as database_module
from service.storage.company import Company
from service.storage.database import reading, writing
from service.storage.tables import RetentionRow, table_of
from tests.service.processes import until

WRITERS = 8


def keep(tenant_id: str) -> Callable[[Connection], str]:
    """Work that stores a row and gives its name."""

    def work(connection: Connection) -> str:
        connection.execute(insert(table_of(RetentionRow)).values(tenant_id=tenant_id, days=1))
        return tenant_id

    return work


def kept(database: Engine) -> list[str]:
    """The names that are stored, as another connection sees them."""
    with reading(database) as connection:
        return list(connection.execute(select(RetentionRow.tenant_id)).scalars())


class Writers:
    """Threads that each write once; what they were given or told of."""

    def __init__(self, company: Company, database: Engine) -> None:
        self._company = company
        self._database = database
        self.given: dict[str, str] = {}
        self.seen: dict[str, bool] = {}
        self.told: dict[str, Exception] = {}
        self._threads: list[threading.Thread] = []

    def start(self, name: str, work: Callable[[Connection], str]) -> None:
        """Write in a thread."""

        def write() -> None:
            try:
                self.given[name] = self._company.write(work)
                self.seen[name] = name in kept(self._database)
            except Exception as error:  # noqa: BLE001 - it is what the test asks about
                self.told[name] = error

        thread = threading.Thread(target=write, daemon=True)
        self._threads.append(thread)
        thread.start()

    def start_together(self, works: dict[str, Callable[[Connection], str]]) -> None:
        """Have all of them wait for the same turn, then let them go, and wait for their end."""
        with writing(self._database):
            for name, work in works.items():
                self.start(name, work)
            if self._database.dialect.name == "sqlite":
                until(lambda: len(self._company._waiting) == len(works), seconds=5)
        self.end()

    def end(self) -> None:
        """Wait until all have heard."""
        for thread in self._threads:
            thread.join(timeout=10)
            assert not thread.is_alive()


@pytest.fixture
def company(database) -> Company:
    """Writers of the fresh database."""
    return Company(database)


@pytest.fixture
def writers(company, database) -> Writers:
    """No thread yet."""
    return Writers(company, database)


def test_who_waits_together_is_committed_once(database, writers):
    """Eight rows of eight callers take one commit on SQLite; each has its own answer after it."""
    commits = []
    event.listen(
        database,
        "commit",
        lambda one: one.get_execution_options().get("read_only") or commits.append(1),
    )
    names = [f"tenant-{number}" for number in range(WRITERS)]
    writers.start_together({name: keep(name) for name in names})
    assert writers.given == {name: name for name in names}
    assert all(writers.seen.values())
    assert sorted(kept(database)) == names
    # One is that of whoever held the turn while they came.
    assert len(commits) == (2 if database.dialect.name == "sqlite" else 1 + WRITERS)


def test_one_who_is_refused_spoils_nothing_for_others(database, writers):
    """What it had written is undone, and so is a row that stood there before."""

    def refused(connection: Connection) -> str:
        keep("refused")(connection)
        raise ServiceProblem("queue_full")

    writers.start_together({"a": keep("a"), "refused": refused, "again": keep("a"), "b": keep("b")})
    assert sorted(kept(database)) == ["a", "b"]
    assert isinstance(writers.told["refused"], ServiceProblem)
    assert writers.told["refused"].code == "queue_full"
    assert {*writers.given} | {*writers.told} == {"a", "b", "refused", "again"}
    doubled = [error for name, error in writers.told.items() if name != "refused"]
    assert [type(error) for error in doubled] == [IntegrityError]


def test_a_mistake_of_ours_in_one_is_told_to_that_one_alone(database, writers):
    """What it had written is undone, and the others are stored."""

    def mistaken(connection: Connection) -> str:
        keep("mistaken")(connection)
        return {}["nothing"]

    writers.start_together({"a": keep("a"), "mistaken": mistaken, "b": keep("b")})
    assert sorted(kept(database)) == ["a", "b"]
    assert [type(error) for error in writers.told.values()] == [KeyError]
    assert {*writers.given} == {"a", "b"}


def _full(connection: Connection) -> None:
    """A disk that has no room when something is committed."""
    if not connection.get_execution_options().get("read_only"):
        raise OperationalError("COMMIT", {}, Exception("database or disk is full"))


def test_nobody_is_promised_what_is_not_committed(database, company, writers):
    """Where a commit finds the disk full all are told so and nothing is stored; later it heals."""
    event.listen(database, "commit", _full)
    for name in "abc":
        writers.start(name, keep(name))
    writers.end()
    event.remove(database, "commit", _full)
    assert writers.given == {}
    assert {error.code for error in writers.told.values()} == {"storage_unavailable"}
    assert kept(database) == []
    assert company.write(keep("later")) == "later"
    assert kept(database) == ["later"]


def test_a_fault_of_the_database_in_one_ends_all(database, writers):
    """It may have ended the transaction of all, so that nobody is told that theirs is stored."""

    def broken(_connection: Connection) -> str:
        raise OperationalError("INSERT", {}, Exception("disk I/O error"))

    if database.dialect.name != "sqlite":
        pytest.skip("on PostgreSQL everybody commits alone")
    writers.start_together({"a": keep("a"), "broken": broken, "b": keep("b")})
    assert {error.code for error in writers.told.values()} == {"storage_unavailable"}
    assert writers.told.keys() == {"a", "broken", "b"}
    assert kept(database) == []


def test_whoever_gets_no_turn_is_told_so(database, company, writers, monkeypatch):
    """While another holds the database for too long all give up, and later all goes on."""
    if database.dialect.name != "sqlite":
        pytest.skip("on PostgreSQL nobody waits for a turn")
    monkeypatch.setattr(database_module, "_LOCK_SECONDS", 0.2)
    with writing(database):
        for name in "ab":
            writers.start(name, keep(name))
        writers.end()
    assert {error.code for error in writers.told.values()} == {"storage_unavailable"}
    assert company.write(keep("later")) == "later"
    assert kept(database) == ["later"]


def test_who_comes_while_others_are_committed_goes_next(database, company):
    """Fifty callers one after another and all at once: each row is stored, and nobody hangs."""
    several = Writers(company, database)
    names = [f"tenant-{number}" for number in range(50)]
    for name in names:
        several.start(name, keep(name))
    several.end()
    assert sorted(kept(database)) == sorted(names)
    assert all(several.seen.values())
    assert several.told == {}
