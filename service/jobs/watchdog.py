"""The clock of a child: it ends one that takes too long, whatever its parent is busy with."""

import threading
import time
from typing import Self

from service.jobs.launcher import Child
from service.jobs.machine_share import MachineShare, stand_back
from service.jobs.processor_time import processor_seconds, wants_processor

_TICK_SECONDS = 0.1
_FROZEN_SECONDS = 0.5
"""The most that one tick of a watchdog counts [s]; more means that the process was frozen."""
TIMES_MORE, _GRACES_MORE = 3, 3.0
"""How often a child near its end has more time, and how much, in times of the grace [1]."""
_WAITS_MORE = 4
"""How long a child may wait for a processor, in times of what it has from the start [1]."""
_NEARLY_SECONDS = 0.03
"""A child that lacks no more than this of a tick has had a processor all the time [s]."""


class Watchdog:
    """Ends a child after so many seconds, whatever its parent is busy with.

    Time in which this process itself was frozen does not count, because an answer may wait. A child
    that tells of a stage when little time is left has three times the grace, `times_more` times:
    on a busy machine it may have its plan already, and need longer to check and write it. Time in
    which such a child waits for a processor, because others have them all, does not count either,
    up to four times what it has from the start. Without `times_more` it has to end by the clock,
    whatever the machine does besides. With a `share` of the machine it is a solve, which tells what
    it gets, and stands back from when callers are many.
    """

    def __init__(
        self,
        child: Child,
        *,
        seconds: float,
        grace_seconds: float = 0.0,
        times_more: int = TIMES_MORE,
        share: MachineShare | None = None,
    ) -> None:
        self.has_bitten = False
        self._child = child
        self._seconds_left = seconds
        self._grace_seconds = grace_seconds
        self._times_more = times_more
        self._share = share
        self._stands_back = False
        self._may_wait = _WAITS_MORE * (seconds + grace_seconds) if times_more else 0.0
        self._had_seconds = processor_seconds(child.process)
        self._stood_down = threading.Event()
        self._thread = threading.Thread(target=self._watch, daemon=True)

    def __enter__(self) -> Self:
        """Watch from now."""
        self._thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        """Leave the child alone from now on."""
        self._stood_down.set()
        self._thread.join()

    def hear(self) -> None:
        """The child told of a stage."""
        more = _GRACES_MORE * self._grace_seconds
        if self._seconds_left < more and self._times_more > 0:
            self._times_more -= 1
            self._seconds_left = more

    def _watch(self) -> None:
        seen = time.monotonic()
        while self._seconds_left > 0:
            if self._stood_down.wait(min(_TICK_SECONDS, self._seconds_left)):
                return
            now = time.monotonic()
            self._seconds_left -= self._counted(min(now - seen, _FROZEN_SECONDS))
            seen = now
        self.has_bitten = True
        self._child.end()

    def _counted(self, passed: float) -> float:
        """How much of the time that has passed counts against the child [s]."""
        if self._may_wait <= 0 and self._share is None:
            return passed
        waited = self._waited(passed)
        if self._share is not None:
            self._share.note_solve(passed, waited)
            if self._share.callers_are_many() and not self._stands_back:
                self._stands_back = True
                stand_back(self._child.process)
        waited = min(waited, self._may_wait)
        self._may_wait -= waited
        return passed - waited

    def _waited(self, passed: float) -> float:
        """How much of it the child has neither slept nor had a processor [s]."""
        process = self._child.process
        before, self._had_seconds = self._had_seconds, processor_seconds(process)
        if before is None or self._had_seconds is None:
            return 0.0
        worked = self._had_seconds - before
        if worked >= passed - _NEARLY_SECONDS or not wants_processor(process):
            return 0.0
        return passed - max(worked, 0.0)
