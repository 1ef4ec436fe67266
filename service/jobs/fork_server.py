"""The process that children are forked from, so that each starts with the solver loaded.

Run as `python -m service.jobs.fork_server FD MODULE:FUNCTION... [--desk]`. On the socket FD it
takes one message a child: the limits, which of the jobs it is, and three file descriptors. The
first job is loaded before the first message, each other one when it is first asked for. It ends
when the socket is closed.

The standard library's fork server would have each child load the main module of the web process
again, which costs more than a small solve, and would outlive the web process with its children.
"""

import gc
import os
import signal
import socket
import struct
import sys
from collections.abc import Callable, Sequence
from importlib import import_module

from service.jobs.child_process import Job, JobLimits, run_desk, run_job

AT_A_DESK = "--desk"
"""Makes each child answer many questions instead of one request."""

LIMITS_FORMAT = struct.Struct("!dQB")
"""The time [s] and the memory [byte] of a job, and which of the server's jobs it is, from 0."""


def serve(
    control: socket.socket, job_of: Callable[[int], Job], run: Callable[..., None] = run_job
) -> None:
    """Fork a child for each message, until the other end of the socket is closed."""
    while True:
        message, descriptors, _, _ = socket.recv_fds(control, LIMITS_FORMAT.size, 3)
        if not message:
            return
        *given, number = LIMITS_FORMAT.unpack(message)
        job = job_of(number)
        if os.fork() == 0:
            try:
                control.close()
                signal.signal(signal.SIGCHLD, signal.SIG_DFL)
                talk, log, lifeline = descriptors
                run(job, JobLimits(*given), talk=talk, log=log, lifeline=lifeline)
            finally:
                os._exit(0)
        for descriptor in descriptors:
            os.close(descriptor)


def find_job(path: str) -> Job:
    """The function of that dotted path, "module:function"."""
    module_name, _, function_name = path.partition(":")
    job: Job = getattr(import_module(module_name), function_name)
    return job


class LoadedJobs:
    """The jobs of a server by number, each loaded when it is first asked for."""

    def __init__(self, paths: Sequence[str]) -> None:
        self._paths = paths
        self._jobs: dict[int, Job] = {}

    def __call__(self, number: int) -> Job:
        """A job; what is loaded by now is shared with the children, so no collector looks at it.

        Nor does one while it loads, or once at its end: what is imported stays, and looking at it
        costs a quarter of the start.
        """
        if number not in self._jobs:
            gc.disable()
            try:
                self._jobs[number] = find_job(self._paths[number])
            finally:
                gc.freeze()
                gc.enable()
        return self._jobs[number]


def main() -> None:
    """Load the first job, then serve."""
    # A signal to the whole group is the web process's to answer; children inherit the deafness.
    for ignored in (signal.SIGINT, signal.SIGTERM):
        signal.signal(ignored, signal.SIG_IGN)
    # The kernel then clears children away by itself.
    signal.signal(signal.SIGCHLD, signal.SIG_IGN)
    control = socket.socket(fileno=int(sys.argv[1]))
    jobs = LoadedJobs([path for path in sys.argv[2:] if path != AT_A_DESK])
    jobs(0)
    serve(control, jobs, run_desk if AT_A_DESK in sys.argv[2:] else run_job)


if __name__ == "__main__":
    main()
