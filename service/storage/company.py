"""Transactions of several callers, committed together: one write to the disk for all of them.

A commit on SQLite waits for the disk, and only one writer can do so at a time. While one waits,
others come. They go together next: one of them leads, and does the work of all.
"""

import threading
from collections.abc import Callable
from typing import Any, Generic, TypeVar

from sqlalchemy import Connection, Engine
from sqlalchemy.exc import IntegrityError, SQLAlchemyError

from service.storage.database import in_turn, storage_faults, transaction, writing

T = TypeVar("T")


class _Member(Generic[T]):
    """One who writes: the work, and what came of it."""

    def __init__(self, work: Callable[[Connection], T]) -> None:
        self.called = threading.Event()
        self.is_done = False
        self._work = work
        self._result: T | None = None
        self._error: BaseException | None = None

    def do(self, connection: Connection) -> None:
        """Do the work in a transaction of its own."""
        self._result = self._work(connection)

    def do_among_others(self, connection: Connection) -> None:
        """Do the work in a transaction of all; what fails or is refused leaves nothing in it.

        A fault of the database is raised: it may have ended the transaction of all.
        """
        try:
            with connection.begin_nested():
                self.do(connection)
        except IntegrityError as error:
            self._error = error
        except SQLAlchemyError:
            raise
        except Exception as error:  # noqa: BLE001 - it is raised to whoever asked
            self._error = error

    def fail(self, error: BaseException) -> None:
        """Nothing of this is stored."""
        self._error = self._error or error

    def end(self) -> None:
        """Tell whoever waits."""
        self.is_done = True
        self.called.set()

    def outcome(self) -> T:
        """What the work gave; its fault is raised."""
        with storage_faults():
            if self._error is not None:
                raise self._error
        return self._result  # type: ignore[return-value]  # it is done, and did not fail


class Company:
    """Those who write through one engine; on PostgreSQL everybody commits alone."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine
        self._lock = threading.Lock()
        self._waiting: list[_Member[Any]] = []
        self._is_led = False

    def write(self, work: Callable[[Connection], T]) -> T:
        """Do the work in a transaction, and give what it gives once that is committed.

        The work may be done by the thread of another caller.
        """
        if self._engine.dialect.name != "sqlite":
            with writing(self._engine) as connection:
                return work(connection)
        member = _Member(work)
        with self._lock:
            self._waiting.append(member)
            leads, self._is_led = not self._is_led, True
        if not leads:
            member.called.wait()
        if not member.is_done:
            try:
                self._lead()
            finally:
                self._pass_on()
        return member.outcome()

    def _lead(self) -> None:
        """Do the work of all who wait once it is this process's turn to write."""
        members: list[_Member[Any]] = []
        try:
            with in_turn(self._engine):
                members = self._all_who_wait()
                self._commit(members)
        except BaseException as error:
            members = members or self._all_who_wait()
            for member in members:
                member.fail(error)
            if not isinstance(error, Exception):
                raise
        finally:
            for member in members:
                member.end()

    def _commit(self, members: list[_Member[Any]]) -> None:
        with transaction(self._engine) as connection:
            if len(members) == 1:
                members[0].do(connection)
            else:
                for member in members:
                    member.do_among_others(connection)

    def _all_who_wait(self) -> list[_Member[Any]]:
        with self._lock:
            members, self._waiting = self._waiting, []
        return members

    def _pass_on(self) -> None:
        """Let the first of those lead who came meanwhile."""
        with self._lock:
            if self._waiting:
                self._waiting[0].called.set()
            else:
                self._is_led = False
