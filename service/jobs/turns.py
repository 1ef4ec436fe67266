"""Turns at something slow: so many at the same time, a few more wait, and others are sent away.

Whoever waits here holds one of the threads that all requests share.
"""

import threading
from collections.abc import Iterator
from contextlib import contextmanager

from service.errors import ServiceProblem

MOST_WAITING = 4
"""How many may wait for a turn [1]."""


class Turns:
    """Turns for `at_once` callers; a turn is awaited for so long at most [s]."""

    def __init__(self, at_once: int, *, patience_seconds: float) -> None:
        self._places = threading.BoundedSemaphore(at_once + MOST_WAITING)
        self._turns = threading.BoundedSemaphore(at_once)
        self._patience_seconds = patience_seconds
        self._stopping = threading.Event()

    def begin_stop(self) -> None:
        """Give no more turns, to those who wait neither."""
        self._stopping.set()

    def is_stopping(self) -> bool:
        """Whether whoever has a turn should end."""
        return self._stopping.is_set()

    def stopped(self) -> ServiceProblem:
        """The problem of whoever is ended because the service stops."""
        return ServiceProblem("shutting_down", headers={"Retry-After": "5"})

    @contextmanager
    def turn(self) -> Iterator[None]:
        """One turn; the problem readers_busy where too many wait, or it does not come in time.

        The problem shutting_down where the service stops.
        """
        if self.is_stopping():
            raise self.stopped()
        if not self._places.acquire(blocking=False):
            raise self.busy()
        try:
            if not self._turns.acquire(timeout=self._patience_seconds):
                raise self.busy()
            try:
                if self.is_stopping():
                    raise self.stopped()
                yield
            finally:
                self._turns.release()
        finally:
            self._places.release()

    def busy(self) -> ServiceProblem:
        """The problem of whoever gets no turn."""
        again_seconds = max(1, round(self._patience_seconds))
        return ServiceProblem("readers_busy", headers={"Retry-After": str(again_seconds)})
