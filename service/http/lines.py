"""Lines before a few places inside: one for each caller, so that a flood of one keeps out no other.

A line takes a burst. Of a flood it keeps only those who wait for a moment, so that whoever is let
in is answered soon. It does not know what callers wait for.
"""

import asyncio
import time
from collections import OrderedDict
from collections.abc import Callable

from service.http.line import Line, Waiter

PLACES = 4
"""How many are inside at once, unless it is said [1]."""
ALL_LINES = 60
"""How many may wait in all lines together [1]."""
LONGEST_WAIT_SECONDS = 10.0
"""The longest that anybody waits in line, whatever holds up those inside [s]."""
_CALLERS = 1_000
"""How many callers are remembered [1]."""


class Lines:
    """Gives places to callers in turn, and sends away those of whom too many come."""

    def __init__(self, places: int = PLACES, *, now: Callable[[], float] = time.monotonic) -> None:
        self._free = places
        self._kept = 1 if places > 1 else 0
        """Places that nobody of a flood has, so that a quiet caller finds one free [1]."""
        self._now = now
        self._lines: OrderedDict[str, Line] = OrderedDict()
        self._turns: OrderedDict[str, Line] = OrderedDict()
        """The lines that have a turn, in their order, and some that have become empty."""

    async def enter(self, caller: str, *, again: bool = False) -> bool:
        """Wait for a place; False for whoever is sent away.

        `again` is for one who came before and left for a while; it does not count as one more.
        """
        now = self._now()
        line = self._line_of(caller)
        if not again:
            line.came.append(now)
        if self._is_free_for(line, now):
            self._free -= 1
            return True
        line.send_away_late(now)
        if len(line.waiting) >= line.most(now) or not self._make_room(line):
            return False
        self._turns.setdefault(caller, line)
        return await self._turn_of(line.join(now))

    def leave(self) -> None:
        """Give a place back; the next in turn has it."""
        self._free += 1
        while (line := self._next()) is not None:
            if line.waiting.popleft().answer(comes_in=True):
                self._free -= 1

    def _next(self) -> Line | None:
        """The line whose turn it is, which goes behind the others; None where nobody comes in."""
        now = self._now()
        for caller, line in list(self._turns.items()):
            line.send_away_late(now, but=1)
            if not line.waiting:
                del self._turns[caller]
            elif self._is_free_for(line, now):
                self._turns.move_to_end(caller)
                return line
        return None

    def _is_free_for(self, line: Line, now: float) -> bool:
        """Whether one of this line can come in."""
        return self._free > (self._kept if line.is_flooded(now) else 0)

    def _line_of(self, caller: str) -> Line:
        """The line of a caller; that of whoever was away longest is forgotten, if it is empty."""
        line = self._lines.pop(caller, None) or Line()
        self._lines[caller] = line
        if len(self._lines) > _CALLERS:
            name, oldest = self._lines.popitem(last=False)
            if oldest.waiting:
                self._lines[name] = oldest
        return line

    def _make_room(self, line: Line) -> bool:
        """Whether there is room for one more; the last of a much longer line makes room."""
        if sum(len(one.waiting) for one in self._turns.values()) < ALL_LINES:
            return True
        longest = max(self._turns.values(), key=lambda one: len(one.waiting))
        if len(longest.waiting) < len(line.waiting) + 2:
            return False
        longest.waiting.pop().answer(comes_in=False)
        return True

    async def _turn_of(self, waiter: Waiter) -> bool:
        """Wait for a turn; whoever is gone by then gives it back."""
        loop = asyncio.get_running_loop()
        late = loop.call_later(LONGEST_WAIT_SECONDS, lambda: waiter.answer(comes_in=False))
        try:
            return await waiter.turn
        except asyncio.CancelledError:
            if waiter.has_come_in():
                self.leave()
            raise
        finally:
            late.cancel()
