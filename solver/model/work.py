"""Work counted in steps: what ends a loop of our own at the same place every time."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from solver.progress import Watch

STEPS_A_SECOND = 1e7
"""Steps that stand for a second: pieces times carriers weighed, as measured here [1/s]."""


def _never() -> bool:
    """Never wish to stop."""
    return False


@dataclass(slots=True)
class Work:
    """So many steps at most, of which some are spent; a wish to stop ends it at once."""

    most: float = math.inf
    should_stop: Callable[[], bool] = _never
    spent: float = 0.0

    def spend(self, steps: float) -> None:
        """Count some steps."""
        self.spent += steps

    def share(self, part: float, should_stop: Callable[[], bool] | None = None) -> Work:
        """Work of its own, of which there is so much of what is left (0 to 1).

        Another wish to stop may end it earlier.
        """
        most = part * max(0.0, self.most - self.spent)
        return Work(most, self.should_stop if should_stop is None else should_stop)

    def is_over(self) -> bool:
        """Whether no more steps may be taken."""
        return self.spent >= self.most or self.should_stop()


def work_within(watch: Watch, *, steady_share: float, racing_share: float) -> Work:
    """Work for a loop: a share of a steady stage in steps, else one of the time spent so far.

    Only a racing solve lets the clock decide; a steady one has it as its last stop.
    """
    if watch.steady_seconds is not None:
        return Work(steady_share * watch.steady_seconds * STEPS_A_SECOND, watch.is_over)
    last = watch.elapsed() * (1 + racing_share)
    return Work(should_stop=lambda: watch.is_over() or watch.elapsed() > last)
