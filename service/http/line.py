"""The line of one caller: who waits in it, how many may, and whom a flood sends away."""

import asyncio
from collections import deque
from dataclasses import dataclass, field

LINE = 15
"""How many of one caller may wait [1]."""
STANDING_LINE = 5
"""How many may wait where the line has not been empty for a while [1]."""
STANDING_SECONDS = 1.0
"""How long a line is not empty before it counts as one that stands [s]."""
MANY, MANY_SECONDS = 30, 0.25
"""A flood: so many of one caller came [1] within this time [s], twice what is promised to go in."""
MOMENT_SECONDS = 0.01
"""How long one of a flood may wait in line; a flood is over when nobody came for so long [s]."""


@dataclass(frozen=True, slots=True)
class Waiter:
    """One who waits: since when, on the clock of the lines [s], and what they will hear."""

    came_at: float
    turn: asyncio.Future[bool]

    def answer(self, *, comes_in: bool) -> bool:
        """Let in or send away; whether they still waited for that."""
        if self.turn.done():
            return False
        self.turn.set_result(comes_in)
        return True

    def has_come_in(self) -> bool:
        """Whether they were let in."""
        return self.turn.done() and not self.turn.cancelled() and self.turn.result()


@dataclass(slots=True)
class Line:
    """Who waits, when the last ones came, and since when somebody has waited [s]."""

    waiting: deque[Waiter] = field(default_factory=deque)
    came: deque[float] = field(default_factory=lambda: deque(maxlen=MANY))
    since: float = 0.0

    def join(self, now: float) -> Waiter:
        """One more at the end of the line."""
        if not self.waiting:
            self.since = now
        waiter = Waiter(now, asyncio.get_running_loop().create_future())
        self.waiting.append(waiter)
        return waiter

    def most(self, now: float) -> int:
        """How many may wait."""
        stands = bool(self.waiting) and now - self.since >= STANDING_SECONDS
        return STANDING_LINE if stands else LINE

    def is_flooded(self, now: float) -> bool:
        """Whether too many came in a short time, and still come."""
        if len(self.came) < MANY or now - self.came[-1] > MOMENT_SECONDS:
            return False
        return now - self.came[0] < MANY_SECONDS

    def send_away_late(self, now: float, *, but: int = 0) -> None:
        """In a flood, send away who has waited too long, except for so many of the last."""
        if self.is_flooded(now):
            while len(self.waiting) > but and now - self.waiting[0].came_at > MOMENT_SECONDS:
                self.waiting.popleft().answer(comes_in=False)
