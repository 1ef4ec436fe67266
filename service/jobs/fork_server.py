"""The process that children are forked from, so that each starts with the solver loaded.

Run as `python -m service.jobs.fork_server FD MODULE:FUNCTION [--desk]`. On the socket FD it takes
one message a child: the limits, and three file descriptors. It ends when the socket is closed.

The standard library's fork server would have each child load the main module of the web process
again, which costs more than a small solve, and would outlive the web process with its children.
"""

import gc
import os
import signal
import socket
import struct
import sys
from collections.abc import Callable
from importlib import import_module

from service.jobs.child_process import Job, JobLimits, run_desk, run_job

AT_A_DESK = "--desk"
"""Makes each child answer many questions instead of one request."""

LIMITS_FORMAT = struct.Struct("!dQ")
"""The time [s] and the memory [byte] of a job."""


def serve(control: socket.socket, job: Job, run: Callable[..., None] = run_job) -> None:
    """Fork a child for each message, until the other end of the socket is closed."""
    while True:
        message, descriptors, _, _ = socket.recv_fds(control, LIMITS_FORMAT.size, 3)
        if not message:
            return
        if os.fork() == 0:
            try:
                control.close()
                signal.signal(signal.SIGCHLD, signal.SIG_DFL)
                talk, log, lifeline = descriptors
                limits = JobLimits(*LIMITS_FORMAT.unpack(message))
                run(job, limits, talk=talk, log=log, lifeline=lifeline)
            finally:
                os._exit(0)
        for descriptor in descriptors:
            os.close(descriptor)


def find_job(path: str) -> Job:
    """The function of that dotted path, "module:function"."""
    module_name, _, function_name = path.partition(":")
    job: Job = getattr(import_module(module_name), function_name)
    return job


def main() -> None:
    """Load the job, then serve."""
    # A signal to the whole group is the web process's to answer; children inherit the deafness.
    for ignored in (signal.SIGINT, signal.SIGTERM):
        signal.signal(ignored, signal.SIG_IGN)
    # The kernel then clears children away by itself.
    signal.signal(signal.SIGCHLD, signal.SIG_IGN)
    control = socket.socket(fileno=int(sys.argv[1]))
    job = find_job(sys.argv[2])
    run = run_desk if sys.argv[3:] == [AT_A_DESK] else run_job
    # What is loaded by now is shared with the children, as long as no collector writes into it.
    gc.collect()
    gc.freeze()
    serve(control, job, run)


if __name__ == "__main__":
    main()
