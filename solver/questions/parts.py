"""Time for the parts of a long question: what earlier parts ran over is kept back for the next.

A solve looks at its time between steps, so it ends a little late, and on a busy machine seconds
late. One part more would add that to what the whole may take.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from solver.progress import Watch


@dataclass(slots=True)
class Parts:
    """The time of a question. `over` is the most that a part has taken beyond its own [s]."""

    watch: Watch
    over: float = 0.0

    def left(self) -> float:
        """Seconds that a part may still be given [s]."""
        return max(0.0, self.watch.left() - self.over)

    @contextmanager
    def part(self, seconds: float) -> Iterator[Watch]:
        """The watch of a part with so much time [s], or with what is left."""
        given = min(seconds, self.left())
        watch = Watch(given, now=self.watch.now, wish_to_stop=self.watch.should_stop)
        begun = self.watch.elapsed()
        try:
            yield watch
        finally:
            self.over = max(self.over, self.watch.elapsed() - begun - given)
