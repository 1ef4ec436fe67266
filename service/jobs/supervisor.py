"""The parent's side of a solve: start a child, listen to it, end it when it must end."""

import logging
import time
from collections.abc import Callable
from dataclasses import dataclass
from multiprocessing.connection import Connection, wait

from service.jobs.child_log import ChildLog
from service.jobs.child_process import (
    ANSWER,
    FINISH,
    OUT_OF_MEMORY,
    PROGRESS,
    READY,
    JobLimits,
    seconds_until,
)
from service.jobs.launcher import Child, Launcher
from service.jobs.machine_share import MachineShare
from service.jobs.watchdog import TIMES_MORE, Watchdog

TIMED_OUT = "solver_timed_out"
LARGEST_OUTCOME_BYTES = 64 * 1024 * 1024
_LOOK_SECONDS = 0.1
_FIRST_START_SECONDS = 60.0
"""Time for a fork server to load the solver and give its first child [s]."""
_START_SECONDS = 10.0
"""Time for a child of a fork server that has given one before [s]."""
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


@dataclass(frozen=True, slots=True)
class NotStarted:
    """No child came to the point where it takes a request; the plan has no part in that."""


JobEnd = Answered | Broken | Stopped | NotStarted
OnLook = Callable[[bytes | None], bool]
"""Called several times a second with the newest progress, or None where there is nothing new.

It gives whether the job is to finish soon with the best that it has; what it raises ends the child
and is raised again.
"""


class Supervisor:
    """Runs jobs in child processes.

    `job` is which of the launcher's jobs it runs. With a `share` of the machine they stand back
    while callers are many.
    `memory_bytes` is the private memory that one child may use [byte];
    `grace_seconds` is what a child may take beyond its own limit before it is killed [s].
    """

    def __init__(
        self,
        launcher: Launcher,
        *,
        memory_bytes: int,
        grace_seconds: float,
        job: int = 0,
        share: MachineShare | None = None,
    ) -> None:
        self._launcher = launcher
        self._job = job
        self._memory_bytes = memory_bytes
        self._grace_seconds = grace_seconds
        self._share = share
        self._proven_server = 0

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
        on_look: OnLook,
        must_stop: Callable[[], bool],
        ends_at: float | None = None,
    ) -> JobEnd:
        """Run one job to its end, within so much time from when its child is ready [s].

        With `ends_at`, on the clock `time.monotonic`, it has no more than `seconds_until` then.
        """
        limits = JobLimits(wall_seconds, self._memory_bytes)
        try:
            child = self._launcher.launch(limits, job=self._job)
        except OSError:
            logger.exception("no child could be started")
            return NotStarted()
        try:
            ready = self._await_ready(child, on_look, must_stop)
            if ready is not None:
                return ready
            if ends_at is not None:
                wall_seconds = min(wall_seconds, seconds_until(ends_at))
            seconds, grace = wall_seconds + self._grace_seconds, self._grace_seconds
            times_more = TIMES_MORE if ends_at is None else 0
            with Watchdog(
                child,
                seconds=seconds,
                grace_seconds=grace,
                times_more=times_more,
                share=self._share,
            ) as watchdog:
                try:
                    child.talk.send_bytes(request_document)
                except OSError:
                    return _death(watchdog, ChildLog(child.log))
                return _listen(child, watchdog, on_look=on_look, must_stop=must_stop)
        finally:
            child.close()

    def _await_ready(
        self, child: Child, on_look: OnLook, must_stop: Callable[[], bool]
    ) -> Stopped | NotStarted | None:
        """Wait until the child is ready, which gives None; replace a fork server that hangs."""
        proven = self._proven_server == child.server
        patience_ends = time.monotonic() + (_START_SECONDS if proven else _FIRST_START_SECONDS)
        while not must_stop():
            if child.talk.poll(_LOOK_SECONDS):
                message = _receive(child.talk)
                if message is not None and message[:1] == READY:
                    self._proven_server = child.server
                    child.process = int(message[1:])
                    return None
                logger.error("a child died before it was ready: %s", ChildLog(child.log).tail())
                return NotStarted()
            on_look(None)
            if time.monotonic() > patience_ends or self._launcher.is_stopped():
                logger.error("the fork server hangs and is replaced")
                self._launcher.replace(child.server)
                return NotStarted()
        return Stopped()


def _listen(
    child: Child, watchdog: Watchdog, *, on_look: OnLook, must_stop: Callable[[], bool]
) -> JobEnd:
    child_log = ChildLog(child.log)
    listening = [child.talk, child.log]
    finishing = False
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
            watchdog.hear()
        if on_look(progress) and not finishing:
            finishing = True
            _ask_to_finish(child)
    return Stopped()


def _ask_to_finish(child: Child) -> None:
    try:
        child.talk.send_bytes(FINISH)
    except OSError:
        logger.info("a child ended before it heard that it should finish")


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
        return Broken(TIMED_OUT, worth_retrying=False)
    last_words = child_log.tail()
    logger.error("solver died: %s", last_words)
    if any(words in last_words for words in _OUT_OF_MEMORY_WORDS):
        return Broken("solver_out_of_memory", worth_retrying=False)
    return Broken("solver_crashed", worth_retrying=True)
