"""The child's side of a solve: tie the process down, run one job, send what came of it."""

import contextlib
import fcntl
import math
import os
import resource
import select
import signal
import sys
import threading
import time
import traceback
from collections.abc import Callable
from dataclasses import dataclass
from multiprocessing.connection import Connection
from pathlib import Path

READY, PROGRESS, ANSWER, OUT_OF_MEMORY, ERROR = b"R", b"P", b"A", b"M", b"E"
"""The first byte of each message to the parent.

The id of the process follows the first one; a document follows progress and an answer.
"""

FINISH = b"F"
"""The one message of the parent after the request: end soon, with the best that there is."""


@dataclass(frozen=True, slots=True)
class JobLimits:
    """What one job may use: time in the solver [s] and private memory of its process [byte]."""

    wall_seconds: float
    memory_bytes: int


_FEWEST_SECONDS = 2.0


def seconds_until(moment: float) -> float:
    """Time that a job has that is to end at a moment, at least two seconds [s].

    The moment is on the clock `time.monotonic`, which is one for all processes of a machine.
    """
    return max(_FEWEST_SECONDS, moment - time.monotonic())


@dataclass(frozen=True, slots=True)
class Talk:
    """What a job may say and ask while it works.

    `tell` sends a progress document; `should_finish` is whether the caller wants what there is.
    """

    tell: Callable[[bytes], None]
    should_finish: Callable[[], bool]


SILENT = Talk(tell=lambda _: None, should_finish=lambda: False)
"""For a caller who wants the outcome alone."""

Job = Callable[[bytes, JobLimits, Talk], bytes]
"""Takes a request document, limits and a way to talk; gives the outcome."""

_MOST_THREADS, _CPU_MORE_SECONDS = 8, 60.0
"""The threads that a request may ask for, and time that a child may have beyond its own [1, s].

The watchdog ends a child long before this CPU time is used, unless its process is frozen.
"""

_SOLVES_GIVE_WAY = 10
_DESKS_GIVE_WAY = 1
"""How much each kind of child gives way to other processes, as `nice` counts it [1].

Somebody waits for what a desk answers, so that solves give way to desks, too.
"""


def run_job(job: Job, limits: JobLimits, *, talk: int, log: int, lifeline: int) -> None:
    """Take a request from one file descriptor, run the job on it, send the outcome back.

    Standard error goes to `log`; the process ends when the other end of `lifeline` is closed.
    It says when it is ready, and only then is it sent the request, so that no time that the
    start takes counts as time of the job.
    """
    os.dup2(log, 2)
    _hang_on(lifeline)
    _tie_down(limits, gives_way=_SOLVES_GIVE_WAY)
    cpu_seconds = _MOST_THREADS * math.ceil(limits.wall_seconds + _CPU_MORE_SECONDS)
    hard_seconds = resource.getrlimit(resource.RLIMIT_CPU)[1]
    if hard_seconds != resource.RLIM_INFINITY:
        cpu_seconds = min(cpu_seconds, hard_seconds)
    resource.setrlimit(resource.RLIMIT_CPU, (cpu_seconds, cpu_seconds))
    parent = Connection(talk)
    parent.send_bytes(READY + str(os.getpid()).encode())
    try:
        request_document = parent.recv_bytes()
        finish = _hear(parent)
        said = Talk(lambda told: parent.send_bytes(PROGRESS + told), finish.is_set)
        parent.send_bytes(ANSWER + job(request_document, limits, said))
    except MemoryError:
        parent.send_bytes(OUT_OF_MEMORY)
    except Exception:  # noqa: BLE001 - the outermost frame of the child
        traceback.print_exc()
        parent.send_bytes(ERROR)


def run_desk(job: Job, limits: JobLimits, *, talk: int, log: int, lifeline: int) -> None:
    """Answer one question after another, until the other end is closed.

    Each may take so much CPU time; the kernel ends the process that takes more.
    """
    os.dup2(log, 2)
    _hang_on(lifeline)
    _tie_down(limits, gives_way=_DESKS_GIVE_WAY)
    signal.signal(signal.SIGPROF, signal.SIG_DFL)
    parent = Connection(talk)
    parent.send_bytes(READY + str(os.getpid()).encode())
    with contextlib.suppress(EOFError, OSError):
        while True:
            question = parent.recv_bytes()
            signal.setitimer(signal.ITIMER_PROF, limits.wall_seconds)
            message = _answered(job, question, limits)
            signal.setitimer(signal.ITIMER_PROF, 0)
            parent.send_bytes(message)
            if message[:1] != ANSWER:
                return


def _answered(job: Job, question: bytes, limits: JobLimits) -> bytes:
    try:
        return ANSWER + job(question, limits, SILENT)
    except MemoryError:
        return OUT_OF_MEMORY
    except Exception:  # noqa: BLE001 - the outermost frame of the child
        traceback.print_exc()
        return ERROR


def _hear(parent: Connection) -> threading.Event:
    """An event that is set when the parent wishes for what there is."""
    finish = threading.Event()

    def listen() -> None:
        with contextlib.suppress(EOFError, OSError):
            if parent.recv_bytes() == FINISH:
                finish.set()

    threading.Thread(target=listen, daemon=True).start()
    return finish


def _hang_on(lifeline: int) -> None:
    """Let the kernel end this process as soon as the other end of a silent pipe is closed.

    That happens when the web process says so and also when it dies, and it ends native code too,
    which would never look at a flag. No file descriptor of the child keeps the other end open.
    """
    signal.signal(signal.SIGIO, signal.SIG_DFL)
    fcntl.fcntl(lifeline, fcntl.F_SETOWN, os.getpid())
    if sys.platform == "linux":
        fcntl.fcntl(lifeline, fcntl.F_SETSIG, signal.SIGKILL)
    flags = fcntl.fcntl(lifeline, fcntl.F_GETFL)
    fcntl.fcntl(lifeline, fcntl.F_SETFL, flags | os.O_ASYNC)
    if select.select([lifeline], [], [], 0)[0]:
        # It was closed before the lines above could take effect.
        os._exit(1)


def _tie_down(limits: JobLimits, *, gives_way: int) -> None:
    """Keep within memory, and give way to the web process in time and when memory is short."""
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    hard_bytes = resource.getrlimit(resource.RLIMIT_DATA)[1]
    unlimited = hard_bytes == resource.RLIM_INFINITY
    memory_bytes = limits.memory_bytes if unlimited else min(limits.memory_bytes, hard_bytes)
    resource.setrlimit(resource.RLIMIT_DATA, (memory_bytes, memory_bytes))
    os.nice(gives_way)
    # Where the system keeps this file from us, the limit above still holds.
    with contextlib.suppress(OSError):
        Path("/proc/self/oom_score_adj").write_text("800", encoding="ascii")
