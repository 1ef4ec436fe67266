"""What callers and solves leave each other of the machine's processors.

Nobody waits for a solve as one waits for an answer. While callers are many, solves stand back
wholly; and where solves then get next to nothing for long, whatever answers callers rests at times.
"""

import contextlib
import math
import os
import sys
import threading
import time
from pathlib import Path

_CALLER_SECONDS, _MANY_CALLERS = 1.0, 15.0
"""Callers are many with more than so many questions in about this time [s, 1]."""
_SOLVE_SECONDS, _SEEN_SECONDS, _SHORT_SHARE = 10.0, 5.0, 0.2
"""Solves go short if in about this time they had a processor for less than this share of what was
seen, and of it at least so much was seen [s, s, 1]."""


class MachineShare:
    """Counts what callers ask for and what solves get, of late; safe to share between threads."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._questions = _Fading(_CALLER_SECONDS)
        self._passed = _Fading(_SOLVE_SECONDS)
        self._waited = _Fading(_SOLVE_SECONDS)

    def note_question(self) -> None:
        """A caller's question has come."""
        with self._lock:
            self._questions.add(1.0)

    def note_solve(self, passed: float, waited: float) -> None:
        """Of so much time a solve waited for a processor so much [s]."""
        with self._lock:
            self._passed.add(passed)
            self._waited.add(waited)

    def callers_are_many(self) -> bool:
        """Whether they are so many that each moment of a processor counts for them."""
        with self._lock:
            return self._questions.sum() > _MANY_CALLERS

    def solves_go_short(self) -> bool:
        """Whether solves have been waiting for most of the last ten seconds or so."""
        with self._lock:
            seen = self._passed.sum()
            had = seen - self._waited.sum()
        return seen >= _SEEN_SECONDS and had < _SHORT_SHARE * seen


class _Fading:
    """A sum in which each part weighs a third after so long [s], in round numbers."""

    def __init__(self, seconds: float) -> None:
        self._seconds = seconds
        self._at = time.monotonic()
        self._sum = 0.0

    def add(self, part: float) -> None:
        """Add a part of now."""
        self._sum = self.sum() + part

    def sum(self) -> float:
        """What is left of all parts."""
        now = time.monotonic()
        self._sum *= math.exp((self._at - now) / self._seconds)
        self._at = now
        return self._sum


def stand_back(process: int) -> None:
    """Let a process have a processor only while nobody else wants it, where the system has that.

    It stays so: the system lets nobody come back from there. A low priority is not enough. Whoever
    wakes up is put on a processor that is free, and one that only such processes use is free to the
    kernel; with any other process on it, the sleeper queues elsewhere. With two solves beside 60
    requests a second on two cores, three times each, the 99th percentile was 80 to 121 ms with the
    solves at priority 10, 78 to 95 at 19, the lowest, and 48 to 53 so.
    """
    if sys.platform != "linux" or not process:
        return
    with contextlib.suppress(OSError):
        for thread in Path(f"/proc/{process}/task").iterdir():
            # A thread that has ended meanwhile needs nothing.
            with contextlib.suppress(ProcessLookupError):
                os.sched_setscheduler(int(thread.name), os.SCHED_IDLE, os.sched_param(0))
