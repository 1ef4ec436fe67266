"""Questions that need the solver while a caller waits: one at a time, in a child like a solve.

Where this process solves plans, too, children are forked from the process that has loaded the
solver for them. Elsewhere that one is started with the first question; who asks none pays nothing.
"""

import json
import threading
import time
from collections.abc import Mapping

from service.errors import ServiceProblem
from service.jobs.desk_job import read_answer
from service.jobs.supervisor import TIMED_OUT, Answered, Broken, JobEnd, Supervisor

_MOST_WAITING = 4
_TURN_SECONDS = 10.0
"""Longest wait until the question before is answered [s]."""

ENDS_AT = "ends_at"
"""The member of a question that says until when its child has time, see `seconds_until` [s]."""


class Questions:
    """Where questions go that take seconds of solving."""

    def __init__(self, supervisor: Supervisor) -> None:
        self._supervisor = supervisor
        self._turn = threading.Lock()
        self._places = threading.BoundedSemaphore(1 + _MOST_WAITING)
        self._stopping = threading.Event()

    def ask(self, document: Mapping[str, object], *, seconds: float) -> bytes:
        """The document that answers a question within so much time, once it is its turn [s].

        What the start of its child takes is part of that time. A refusal is raised as what it is;
        the problem too_busy where too many wait already.
        """
        if self._stopping.is_set() or not self._places.acquire(blocking=False):
            raise ServiceProblem("too_busy", headers={"Retry-After": "10"})
        try:
            if not self._turn.acquire(timeout=_TURN_SECONDS):
                raise ServiceProblem("too_busy", headers={"Retry-After": "10"})
            try:
                return self._answer(document, seconds)
            finally:
                self._turn.release()
        finally:
            self._places.release()

    def _answer(self, document: Mapping[str, object], seconds: float) -> bytes:
        """What the child answers; where it is ended first, what it knew by then."""
        ends_at = time.monotonic() + seconds
        known: list[bytes] = []

        def hear(progress: bytes | None) -> bool:
            known[:] = known if progress is None else [progress]
            return False

        end = self._supervisor.run(
            json.dumps({**document, ENDS_AT: ends_at}).encode(),
            wall_seconds=seconds,
            ends_at=ends_at,
            on_look=hear,
            must_stop=self._stopping.is_set,
        )
        if isinstance(end, Answered):
            return read_answer(end.outcome)
        if isinstance(end, Broken) and end.code == TIMED_OUT and known:
            return read_answer(known[0])
        raise _problem_of(end)

    def begin_stop(self) -> None:
        """End what is being answered, and take no more; does not wait."""
        self._stopping.set()

    def close(self) -> None:
        """End what is being answered, and take no more."""
        self.begin_stop()
        with self._turn:
            self._supervisor.close()


def _problem_of(end: JobEnd) -> ServiceProblem:
    """Why there is no answer; only time and memory are held against the question."""
    if isinstance(end, Broken) and end.code in (TIMED_OUT, "solver_out_of_memory"):
        return ServiceProblem("too_much_work")
    if isinstance(end, Broken) and not end.worth_retrying:
        return ServiceProblem("internal_error")
    return ServiceProblem("too_busy", headers={"Retry-After": "10"})
