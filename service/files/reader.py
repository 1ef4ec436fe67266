"""The web process's side of reading a file: one child for each, a few at a time."""

from __future__ import annotations

from service.errors import RequestFaults, ServiceProblem
from service.files.order import ANSWER, Order, faults_of
from service.jobs.launcher import Launcher
from service.jobs.supervisor import Answered, Broken, NotStarted, Stopped, Supervisor
from service.jobs.turns import Turns

_BYTES_PER_MIB = 1024 * 1024
_READING_SECONDS = 20.0
"""Time that the child may take to read one file [s]."""
_READING_MEMORY_MIB = 1024
_PATIENCE_SECONDS = 10.0
"""Time that a file waits for its turn [s]."""
_BECAUSE_OF_THE_FILE = ("solver_timed_out", "solver_out_of_memory")
JOB = "service.files.job:read_file"


class FileReader:
    """Reads files in children; `at_once` of them at the same time.

    The process that children are forked from starts with the first file.
    """

    def __init__(
        self, *, at_once: int, grace_seconds: float, seconds: float = _READING_SECONDS
    ) -> None:
        self._supervisor = Supervisor(
            Launcher(JOB),
            memory_bytes=_READING_MEMORY_MIB * _BYTES_PER_MIB,
            grace_seconds=grace_seconds,
        )
        self._turns = Turns(at_once, patience_seconds=_PATIENCE_SECONDS)
        self._seconds = seconds

    def read(self, order: Order) -> bytes:
        """The answer to a file, as JSON.

        Raises RequestFaults for what is wrong in it, and the problems readers_busy, shutting_down
        and file_too_costly.
        """
        with self._turns.turn():
            end = self._supervisor.run(
                order.document(),
                wall_seconds=self._seconds,
                on_look=lambda _: False,
                must_stop=self._turns.is_stopping,
            )
        if isinstance(end, Stopped):
            raise self._turns.stopped()
        if isinstance(end, Broken) and end.code in _BECAUSE_OF_THE_FILE:
            raise ServiceProblem("file_too_costly")
        if isinstance(end, NotStarted):
            raise self._turns.busy()
        if not isinstance(end, Answered):
            raise ServiceProblem("internal_error")
        if end.outcome[:1] == ANSWER:
            return end.outcome[1:]
        raise RequestFaults(faults_of(end.outcome[1:]))

    def begin_stop(self) -> None:
        """End what is being read, and read no more; does not wait."""
        self._turns.begin_stop()

    def close(self) -> None:
        """End what is being read, and the process that children are forked from, if any."""
        self.begin_stop()
        self._supervisor.close()
