"""The child's side of a solve: tie the process down, run one job, send what came of it.

This module is loaded by the web process too, so it must not import the solver; the job is named by
its dotted path and found only in the child.
"""

import ctypes
import os
import resource
import signal
import traceback
from collections.abc import Callable
from dataclasses import dataclass
from importlib import import_module
from multiprocessing.connection import Connection
from pathlib import Path

PROGRESS, ANSWER, OUT_OF_MEMORY, ERROR = b"P", b"A", b"M", b"E"
"""The first byte of each message to the parent; a document follows the first two."""

_PR_SET_PDEATHSIG = 1


@dataclass(frozen=True, slots=True)
class JobLimits:
    """What one job may use: time in the solver [s] and private memory of its process [byte]."""

    wall_seconds: float
    memory_bytes: int


TellProgress = Callable[[bytes], None]
Job = Callable[[bytes, JobLimits, TellProgress], bytes]
"""Takes a request document, limits, and a function that tells progress; gives the outcome."""


def run_job(
    job_path: str, request_document: bytes, limits: JobLimits, answers: Connection, log: Connection
) -> None:
    """Run the job named "module:function" and send its outcome, or what went wrong."""
    os.dup2(log.fileno(), 2)
    _tie_down(limits)
    try:
        answers.send_bytes(ANSWER + _find(job_path)(request_document, limits, _teller(answers)))
    except MemoryError:
        answers.send_bytes(OUT_OF_MEMORY)
    except Exception:  # noqa: BLE001 - the outermost frame of the child
        traceback.print_exc()
        answers.send_bytes(ERROR)


def _teller(answers: Connection) -> TellProgress:
    return lambda document: answers.send_bytes(PROGRESS + document)


def _find(job_path: str) -> Job:
    module_name, _, function_name = job_path.partition(":")
    job: Job = getattr(import_module(module_name), function_name)
    return job


def _tie_down(limits: JobLimits) -> None:
    """End with the parent, stay within memory, give way to the web process, leave signals to it."""
    ctypes.CDLL(None).prctl(_PR_SET_PDEATHSIG, signal.SIGKILL)
    if os.getppid() == 1:
        # The parent died before the line above could take effect.
        os._exit(1)
    for ignored in (signal.SIGINT, signal.SIGTERM):
        signal.signal(ignored, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    resource.setrlimit(resource.RLIMIT_DATA, (limits.memory_bytes, limits.memory_bytes))
    os.nice(5)
    Path("/proc/self/oom_score_adj").write_text("800", encoding="ascii")
