"""How a solve talks with its caller: time left, progress told, a wish to stop heard."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Progress:
    """Where a solve stands: the best whole plan's peak and the bound [1/10,000]."""

    stage: str
    peak: int | None
    bound: int
    seconds: float


def _silent(_: Progress) -> None:
    """Tell nobody."""


def _never() -> bool:
    """Never wish to stop."""
    return False


STEADY_STAGES = 3
"""Into how many parts a steady solve's time is cut, so that its stages together fit it."""


@dataclass(slots=True)
class Watch:
    """Time and talk for one solve.

    `now` is a clock that only goes forward [s]; without one every stage gets its full share
    of the time and nothing is measured.

    Both wishes are asked for at every stage. From `wish_to_stop` on it ends at once, with a plan or
    without. `wish_to_finish` waits until the solve `can_answer`: only then it ends, with the best
    plan so far, and nothing is shortened before.

    With `steady_seconds` every stage may do the work that fits into so many seconds, whatever the
    clock says: then the clock is only the last stop, and `clock_ended` says that it came to that.
    """

    wall_seconds: float
    now: Callable[[], float] | None = None
    tell: Callable[[Progress], None] = _silent
    wish_to_stop: Callable[[], bool] = _never
    wish_to_finish: Callable[[], bool] = _never
    steady_seconds: float | None = None
    kept_back: float = 0.0
    kept_for_later: float = 0.0
    begun: float = 0.0
    stages: list[tuple[str, float]] = field(default_factory=list)
    clock_ended: bool = False
    can_answer: bool = False
    _stage_begun: float = 0.0

    def start(self) -> None:
        """Begin to count, with nothing to answer yet."""
        self.can_answer = False
        self.begun = self._stage_begun = self.now() if self.now else 0.0

    @property
    def steady(self) -> bool:
        """Whether work is counted in steps."""
        return self.steady_seconds is not None

    def elapsed(self) -> float:
        """Seconds since the start [s]; 0 without a clock."""
        return self.now() - self.begun if self.now else 0.0

    def should_stop(self) -> bool:
        """Whether a wish ends it now; one to finish does so once there is an answer."""
        return self.wish_to_stop() or (self.can_answer and self.wish_to_finish())

    def is_over(self) -> bool:
        """Whether to end at once: a wish ends it, or the time is up."""
        return self.left() <= 0

    def left(self) -> float:
        """Seconds that may still be spent [s], for a steady solve those that a stage may fill."""
        if self.should_stop():
            return 0.0
        left = self._clock_left()
        if left == 0.0:
            self.clock_ended = True
            return 0.0
        return left if self.steady_seconds is None else self.steady_seconds

    def part_over(self, part: float) -> Callable[[], bool]:
        """Whether to end before the rest: a part (0 to 1) of the time left from now has passed.

        In a steady solve too, so that what comes after has its turn where the clock would end it.
        """
        last = self.elapsed() + part * self._clock_left()

        def is_over() -> bool:
            if self.is_over():
                return True
            if self.elapsed() <= last:
                return False
            self.clock_ended = True
            return True

        return is_over

    def keep_back(self, seconds: float) -> None:
        """Keep time for what comes after the search, at most a quarter of the whole [s]."""
        self.kept_back = min(seconds, self.wall_seconds / 4)

    def keep_for_later(self, part: float) -> None:
        """Keep a part (0 to 1) of the time that is left for later stages, until it is 0 again."""
        self.kept_for_later = 0.0
        self.kept_for_later = part * self._clock_left()

    def _clock_left(self) -> float:
        """Seconds that the clock leaves [s]."""
        kept = self.kept_back + self.kept_for_later
        return max(0.0, self.wall_seconds - kept - self.elapsed())

    def finish_stage(self, stage: str, peak: int | None, bound: int) -> None:
        """Note how long a stage took, and tell where the solve stands.

        With a peak there is a plan, which can be the answer.
        """
        self.can_answer |= peak is not None
        at = self.now() if self.now else 0.0
        self.stages.append((stage, at - self._stage_begun))
        self._stage_begun = at
        self.tell(Progress(stage, peak, bound, at - self.begun))
