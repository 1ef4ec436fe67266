"""The child's side of a solve: tie the process down, run one job, send what came of it."""

import contextlib
import fcntl
import os
import resource
import select
import signal
import sys
import traceback
from collections.abc import Callable
from dataclasses import dataclass
from multiprocessing.connection import Connection
from pathlib import Path

PROGRESS, ANSWER, OUT_OF_MEMORY, ERROR = b"P", b"A", b"M", b"E"
"""The first byte of each message to the parent; a document follows the first two."""


@dataclass(frozen=True, slots=True)
class JobLimits:
    """What one job may use: time in the solver [s] and private memory of its process [byte]."""

    wall_seconds: float
    memory_bytes: int


TellProgress = Callable[[bytes], None]
Job = Callable[[bytes, JobLimits, TellProgress], bytes]
"""Takes a request document, limits, and a function that tells progress; gives the outcome."""


def run_job(job: Job, limits: JobLimits, *, talk: int, log: int, lifeline: int) -> None:
    """Take a request from one file descriptor, run the job on it, send the outcome back.

    Standard error goes to `log`; the process ends when the other end of `lifeline` is closed.
    """
    os.dup2(log, 2)
    _hang_on(lifeline)
    _tie_down(limits)
    parent = Connection(talk)
    try:
        outcome = job(parent.recv_bytes(), limits, lambda told: parent.send_bytes(PROGRESS + told))
        parent.send_bytes(ANSWER + outcome)
    except MemoryError:
        parent.send_bytes(OUT_OF_MEMORY)
    except Exception:  # noqa: BLE001 - the outermost frame of the child
        traceback.print_exc()
        parent.send_bytes(ERROR)


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


def _tie_down(limits: JobLimits) -> None:
    """Keep within memory, and give way to the web process in time and when memory is short."""
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    hard_bytes = resource.getrlimit(resource.RLIMIT_DATA)[1]
    unlimited = hard_bytes == resource.RLIM_INFINITY
    memory_bytes = limits.memory_bytes if unlimited else min(limits.memory_bytes, hard_bytes)
    resource.setrlimit(resource.RLIMIT_DATA, (memory_bytes, memory_bytes))
    os.nice(5)
    # Where the system keeps this file from us, the limit above still holds.
    with contextlib.suppress(OSError):
        Path("/proc/self/oom_score_adj").write_text("800", encoding="ascii")
