"""The parent's side of a solve: start a child, listen to it, end it when it must end."""

import logging
import os
import threading
from collections.abc import Callable
from dataclasses import dataclass
from multiprocessing.connection import Connection, wait

from service.jobs.child_process import ANSWER, OUT_OF_MEMORY, PROGRESS, JobLimits
from service.jobs.launcher import Child, Launcher

LARGEST_OUTCOME_BYTES = 64 * 1024 * 1024
_LOOK_SECONDS = 0.1
_LOG_BYTES_KEPT = 4096
_OUT_OF_MEMORY_WORDS = ("bad_alloc", "MemoryError", "Cannot allocate memory")

logger = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class Answered:
    """The child sent an outcome."""

    outcome: bytes


@dataclass(frozen=True, slots=True)
class Broken:
    """The solve failed, with a code of `failures.FAILURES`; trying again may help or not."""

    code: str
    worth_retrying: bool


@dataclass(frozen=True, slots=True)
class Stopped:
    """The child was ended because the caller asked for it."""


JobEnd = Answered | Broken | Stopped


class Supervisor:
    """Runs jobs in child processes.

    `memory_bytes` is the private memory that one child may use [byte];
    `grace_seconds` is what a child may take beyond its own limit before it is killed [s].
    """

    def __init__(self, launcher: Launcher, *, memory_bytes: int, grace_seconds: float) -> None:
        self._launcher = launcher
        self._memory_bytes = memory_bytes
        self._grace_seconds = grace_seconds

    def warm_up(self) -> None:
        """Have the solver loaded before the first job comes."""
        self._launcher.warm_up()

    def close(self) -> None:
        """End the process that children are forked from."""
        self._launcher.close()

    def run(
        self,
        request_document: bytes,
        *,
        wall_seconds: float,
        on_look: Callable[[bytes | None], None],
        must_stop: Callable[[], bool],
    ) -> JobEnd:
        """Run one job to its end, within so much time [s].

        `on_look` is called several times a second with the newest progress, or None where there is
        nothing new; what it raises ends the child and is raised here.
        """
        try:
            child = self._launcher.launch(JobLimits(wall_seconds, self._memory_bytes))
        except OSError:
            logger.exception("no child could be started")
            return Broken("solver_crashed", worth_retrying=True)
        watchdog = Watchdog(child, seconds=wall_seconds + self._grace_seconds)
        try:
            try:
                child.talk.send_bytes(request_document)
            except OSError:
                return _death(watchdog, ChildLog(child.log))
            return _listen(child, watchdog, on_look=on_look, must_stop=must_stop)
        finally:
            watchdog.stand_down()
            child.close()


class Watchdog:
    """Ends a child after so many seconds, whatever its parent is busy with."""

    def __init__(self, child: Child, *, seconds: float) -> None:
        self.has_bitten = False
        self._child = child
        self._timer = threading.Timer(seconds, self._bite)
        self._timer.daemon = True
        self._timer.start()

    def stand_down(self) -> None:
        """Leave the child alone from now on."""
        self._timer.cancel()
        self._timer.join()

    def _bite(self) -> None:
        self.has_bitten = True
        self._child.end()


class ChildLog:
    """The end of what a child writes to its standard error, read without ever waiting for more."""

    def __init__(self, source: Connection) -> None:
        self._source = source
        self._tail = b""

    def read_on(self) -> bool:
        """Take what is there; False when the child has closed its end."""
        text = os.read(self._source.fileno(), _LOG_BYTES_KEPT)
        self._tail = (self._tail + text)[-_LOG_BYTES_KEPT:]
        return bool(text)

    def tail(self) -> str:
        """The last few thousand characters written before now."""
        while self._source.poll() and self.read_on():
            pass
        return self._tail.decode(errors="replace")


def _listen(
    child: Child,
    watchdog: Watchdog,
    *,
    on_look: Callable[[bytes | None], None],
    must_stop: Callable[[], bool],
) -> JobEnd:
    child_log = ChildLog(child.log)
    listening = [child.talk, child.log]
    while not must_stop():
        ready = wait(listening, _LOOK_SECONDS)
        if child.log in ready and not child_log.read_on():
            listening.remove(child.log)
        progress = None
        if child.talk in ready:
            message = _receive(child.talk)
            if message is None:
                return _death(watchdog, child_log)
            if message[:1] != PROGRESS:
                return _last_word(message, child_log)
            progress = message[1:]
        on_look(progress)
    return Stopped()


def _receive(talk: Connection) -> bytes | None:
    """The next message, or None when the child's end is closed or the message is cut off."""
    try:
        return talk.recv_bytes(LARGEST_OUTCOME_BYTES)
    except (EOFError, OSError):
        return None


def _last_word(message: bytes, child_log: ChildLog) -> Answered | Broken:
    last_words = child_log.tail()
    if last_words:
        logger.warning("solver says: %s", last_words)
    if message[:1] == ANSWER:
        return Answered(message[1:])
    if message[:1] == OUT_OF_MEMORY:
        return Broken("solver_out_of_memory", worth_retrying=False)
    return Broken("solver_error", worth_retrying=False)


def _death(watchdog: Watchdog, child_log: ChildLog) -> Broken:
    if watchdog.has_bitten:
        return Broken("solver_timed_out", worth_retrying=False)
    last_words = child_log.tail()
    logger.error("solver died: %s", last_words)
    if any(words in last_words for words in _OUT_OF_MEMORY_WORDS):
        return Broken("solver_out_of_memory", worth_retrying=False)
    return Broken("solver_crashed", worth_retrying=True)
