"""The most memory that something has while it works, not only when it is done."""

import threading
from collections.abc import Callable
from typing import Self

_LOOK_SECONDS = 0.05


class PeakMemory:
    """Looks twenty times a second, by a function that gives the memory of now [MiB]."""

    def __init__(self, look: Callable[[], float]) -> None:
        self.mb = 0.0
        self._memory_mb = look
        self._is_over = threading.Event()
        self._thread = threading.Thread(target=self._look, daemon=True)

    def __enter__(self) -> Self:
        """Begin to look."""
        self._thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        """Look once more, and end."""
        self._is_over.set()
        self._thread.join()

    def _look(self) -> None:
        while True:
            is_last = self._is_over.wait(_LOOK_SECONDS)
            self.mb = max(self.mb, self._memory_mb())
            if is_last:
                return
