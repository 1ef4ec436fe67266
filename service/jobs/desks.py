"""Processes that work out what a caller waits for: bounded in time, memory and number.

The web process only hands on bytes, so that its loop stays free whatever a body costs.
"""

import logging
import queue
import threading
import time
from typing import Protocol

from service.errors import ServiceProblem
from service.jobs.child_log import ChildLog
from service.jobs.child_process import ANSWER, OUT_OF_MEMORY, READY, SILENT, Job, JobLimits
from service.jobs.desk_job import read_answer
from service.jobs.launcher import Child, Launcher

_MOST_WAITING = 16
_TURN_SECONDS = 5.0
"""Longest wait for a desk to be free [s]."""
_START_SECONDS = 120.0
_WALL_PER_CPU = 5.0
"""Wall time a question may take, in CPU times: the machine may be busy with other things."""
_LARGEST_ANSWER_BYTES = 64 * 1024 * 1024

logger = logging.getLogger(__name__)


class Desks(Protocol):
    """Where questions are answered."""

    def start(self) -> None:
        """Have somebody ready for the first question."""

    def ask(self, question: bytes) -> bytes:
        """The document that answers a question; a refusal is raised as what it is."""

    def close(self) -> None:
        """Answer no more."""


class DesksInline:
    """Answers in the process that asks, for tests of everything else."""

    def __init__(self, job: Job) -> None:
        self._job = job

    def start(self) -> None:
        """Nothing to do."""

    def ask(self, question: bytes) -> bytes:
        """Answer at once, without any limit."""
        return read_answer(self._job(question, JobLimits(0, 0), SILENT))

    def close(self) -> None:
        """Nothing to do."""


class DesksInProcesses:
    """A number of desks, each a process that takes one question after another.

    A question that takes more CPU time or memory than it may costs its desk, which is replaced.
    """

    def __init__(self, launcher: Launcher, limits: JobLimits, *, desks: int) -> None:
        self._launcher = launcher
        self._limits = limits
        self._free: queue.Queue[Child | None] = queue.Queue()
        for _ in range(desks):
            self._free.put(None)
        self._places = threading.BoundedSemaphore(desks + _MOST_WAITING)

    def start(self) -> None:
        """Load what the desks share, before the first question."""
        self._launcher.warm_up()

    def close(self) -> None:
        """End every desk that is free, and what they were forked from."""
        while not self._free.empty():
            desk = self._free.get()
            if desk is not None:
                desk.close()
        self._launcher.close()

    def ask(self, question: bytes) -> bytes:
        """Have a question answered; the problem too_busy where too many wait already."""
        if not self._places.acquire(blocking=False):
            raise _too_busy()
        try:
            try:
                desk = self._free.get(timeout=_TURN_SECONDS)
            except queue.Empty:
                raise _too_busy() from None
            return read_answer(self._ask_at(desk, question))
        finally:
            self._places.release()

    def _ask_at(self, desk: Child | None, question: bytes) -> bytes:
        """Ask, and give the desk back.

        It is asked once more at a new desk where somebody killed the first, or where an older desk
        had no memory left.
        """
        try:
            for _ in range(2):
                fresh = desk is None
                desk = desk or self._open()
                begun = time.monotonic()
                answer = self._told(desk, question)
                if answer is not None and answer[:1] == ANSWER:
                    return answer[1:]
                last_words = ChildLog(desk.log).tail()
                desk.close()
                desk = None
                if answer is not None and answer[:1] != OUT_OF_MEMORY:
                    logger.error("a desk met a fault: %s", last_words)
                    raise ServiceProblem("internal_error")
                killed_early = time.monotonic() - begun < self._limits.wall_seconds / 2
                if fresh if answer is not None else not killed_early:
                    break
            raise ServiceProblem("too_much_work")
        finally:
            self._free.put(desk)

    def _told(self, desk: Child, question: bytes) -> bytes | None:
        """What a desk says; None where it died or took too long."""
        try:
            desk.talk.send_bytes(question)
            if not desk.talk.poll(self._limits.wall_seconds * _WALL_PER_CPU):
                return None
            return desk.talk.recv_bytes(_LARGEST_ANSWER_BYTES)
        except (EOFError, OSError):
            return None

    def _open(self) -> Child:
        """A new desk that is ready."""
        try:
            desk = self._launcher.launch(self._limits)
        except OSError:
            raise _too_busy() from None
        patience_ends = time.monotonic() + _START_SECONDS
        while not desk.talk.poll(0.1):
            if self._launcher.is_stopped() or time.monotonic() > patience_ends:
                desk.close()
                self._launcher.replace(desk.server)
                raise _too_busy()
        try:
            if desk.talk.recv_bytes() == READY:
                return desk
        except (EOFError, OSError):
            logger.exception("a desk died before it was ready: %s", ChildLog(desk.log).tail())
        desk.close()
        raise _too_busy()


def _too_busy() -> ServiceProblem:
    return ServiceProblem("too_busy", headers={"Retry-After": "2"})
