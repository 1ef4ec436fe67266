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
from service.jobs.machine_share import MachineShare
from service.jobs.watchdog import Watchdog

_MOST_WAITING = 16
_TURN_SECONDS = 5.0
"""Longest wait for a desk to be free [s]."""
_FIRST_START_SECONDS = 60.0
"""Time that a caller waits for the first desk, while what all desks share is being loaded [s]."""
_START_SECONDS = 30.0
"""Time that a caller waits for a later desk [s]."""
_MOST_LOADING_SECONDS = 300.0
"""Time after which what loads without an end is given up and begun anew [s]."""
_WALL_PER_CPU = 5.0
"""Wall time a question may take, in CPU times: the machine may be busy with other things."""
_RESTS = 2.0
"""How long a desk rests after a question while solves go short, in times of the question [1].

With as many desks as cores, a sixth of two cores is then left for them, and more of many:
desks work for a third of the time, and the process that asks them takes one core at the most.
"""
_LARGEST_ANSWER_BYTES = 64 * 1024 * 1024

logger = logging.getLogger(__name__)


class _HungError(Exception):
    """The clock ended a desk that had not used up its CPU time."""


class Desks(Protocol):
    """Where questions are answered."""

    def start(self) -> None:
        """Have somebody ready for the first question, after a while."""

    def is_ready(self) -> bool:
        """Whether a question is answered without waiting for something to load."""

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

    def is_ready(self) -> bool:
        """Always."""
        return True

    def ask(self, question: bytes) -> bytes:
        """Answer at once, without any limit."""
        return read_answer(self._job(question, JobLimits(0, 0), SILENT))

    def close(self) -> None:
        """Nothing to do."""


class DesksInProcesses:
    """A number of desks, each a process that takes one question after another.

    A question that takes more CPU time or memory than it may costs its desk, which is replaced.
    While solves go short of their `share`, a desk that has answered rests before the next question.
    """

    def __init__(
        self,
        launcher: Launcher,
        limits: JobLimits,
        *,
        desks: int,
        share: MachineShare | None = None,
    ) -> None:
        self._launcher = launcher
        self._limits = limits
        self._share = share or MachineShare()
        self._free: queue.Queue[Child | None] = queue.Queue()
        for _ in range(desks):
            self._free.put(None)
        self._places = threading.BoundedSemaphore(desks + _MOST_WAITING)
        self._proven_server = 0
        self._closed = threading.Event()

    def start(self) -> None:
        """Load what the desks share, in the background."""
        self._launcher.warm_up()
        threading.Thread(target=self._open_first, name="first desk", daemon=True).start()

    def is_ready(self) -> bool:
        """Whether a desk has been ready once, so that everything is loaded."""
        return self._proven_server > 0

    def close(self) -> None:
        """End every desk that is free, and what they were forked from."""
        self._closed.set()
        while not self._free.empty():
            desk = self._free.get()
            if desk is not None:
                desk.close()
        self._launcher.close()

    def ask(self, question: bytes) -> bytes:
        """Have a question answered; the problem too_busy where too many wait already."""
        self._share.note_question()
        if not self._places.acquire(blocking=False):
            raise _too_busy()
        try:
            try:
                turn = _TURN_SECONDS if self.is_ready() else _FIRST_START_SECONDS
                desk = self._free.get(timeout=turn)
            except queue.Empty:
                raise _too_busy() from None
            return read_answer(self._ask_at(desk, question))
        finally:
            self._places.release()

    def _ask_at(self, desk: Child | None, question: bytes) -> bytes:
        """Ask, and give the desk back.

        It is asked once more at a new desk where somebody killed the first, or where an older desk
        had no memory left. Where a desk hangs, the caller is told to come again.
        """
        begun = time.monotonic()
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
        except _HungError:
            logger.warning("a desk hung and is replaced")
            if desk is not None:
                desk.close()
                desk = None
            raise _too_busy() from None
        finally:
            self._give_back(desk, time.monotonic() - begun)

    def _give_back(self, desk: Child | None, worked: float) -> None:
        """Have a desk take questions again, after a rest if that is needed [s].

        No rest is longer than a caller waits for a turn.
        """
        if not self._share.solves_go_short():
            self._put_back(desk)
            return
        seconds = min(_RESTS * worked, _TURN_SECONDS)
        rest = threading.Timer(seconds, self._put_back, (desk,))
        rest.daemon = True
        rest.start()

    def _put_back(self, desk: Child | None) -> None:
        """Have a desk take questions again, unless all were closed meanwhile."""
        if self._closed.is_set() and desk is not None:
            desk.close()
            desk = None
        self._free.put(desk)

    def _told(self, desk: Child, question: bytes) -> bytes | None:
        """What a desk says; None where it died; _HungError where it was ended by the clock.

        The kernel ends a desk that uses up its CPU time, so one that the clock ends had little.
        """
        patience = self._limits.wall_seconds * _WALL_PER_CPU
        with Watchdog(desk, seconds=patience, times_more=0) as watchdog:
            try:
                desk.talk.send_bytes(question)
                return desk.talk.recv_bytes(_LARGEST_ANSWER_BYTES)
            except (EOFError, OSError):
                if watchdog.has_bitten:
                    raise _HungError from None
                return None

    def _open_first(self) -> None:
        """Wait until a desk could be opened; callers who come meanwhile open their own."""
        while not self.is_ready() and not self._closed.wait(0.1):
            try:
                self._open().close()
            except ServiceProblem:
                logger.warning("no desk is ready yet")

    def _open(self) -> Child:
        """A new desk that is ready.

        A server that only loads is left to do so when its caller is sent away: to begin anew on a
        busy machine would never come to an end.
        """
        try:
            desk = self._launcher.launch(self._limits)
        except OSError:
            raise _too_busy() from None
        proven = self._proven_server == desk.server
        begun = time.monotonic()
        while not desk.talk.poll(0.1):
            waited = time.monotonic() - begun
            hangs = self._launcher.is_stopped() or (proven and waited > _START_SECONDS)
            if hangs or waited > _FIRST_START_SECONDS or self._closed.is_set():
                desk.close()
                if hangs or self._launcher.age_seconds() > _MOST_LOADING_SECONDS:
                    self._launcher.replace(desk.server)
                raise _too_busy()
        try:
            if desk.talk.recv_bytes()[:1] == READY:
                self._proven_server = desk.server
                return desk
        except (EOFError, OSError):
            logger.exception("a desk died before it was ready: %s", ChildLog(desk.log).tail())
        desk.close()
        raise _too_busy()


def _too_busy() -> ServiceProblem:
    return ServiceProblem("too_busy", headers={"Retry-After": "2"})
