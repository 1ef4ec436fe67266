"""Room for streams that stay open, so that they do not take every connection.

Whoever is beyond the limit, or beyond a share of it, hears so at once and comes again later.
"""

from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager

from service.errors import ServiceProblem

_BUSY = {"Retry-After": "5"}


class StreamRoom:
    """So many streams at the same time, of which one caller has a share."""

    def __init__(self, *, streams: int, share: int) -> None:
        self._streams = streams
        self._share = share
        self._open: Counter[str] = Counter()

    def opened(self) -> int:
        """How many streams are open [1]."""
        return self._open.total()

    @contextmanager
    def place(self, caller: str) -> Iterator[None]:
        """A place as long as this lasts; the problem too_busy where there is none."""
        if self._open[caller] >= self._share:
            raise ServiceProblem("too_busy", f"You have {self._share} streams open.", headers=_BUSY)
        if self.opened() >= self._streams:
            raise ServiceProblem("too_busy", "Too many streams are open.", headers=_BUSY)
        self._open[caller] += 1
        try:
            yield
        finally:
            self._open[caller] -= 1
            if not self._open[caller]:
                del self._open[caller]
