"""What a child writes to its standard error."""

import os
from multiprocessing.connection import Connection

_BYTES_KEPT = 4096


class ChildLog:
    """The end of what a child writes to its standard error, read without ever waiting for more."""

    def __init__(self, source: Connection) -> None:
        self._source = source
        self._tail = b""

    def read_on(self) -> bool:
        """Take what is there; False when the child has closed its end."""
        text = os.read(self._source.fileno(), _BYTES_KEPT)
        self._tail = (self._tail + text)[-_BYTES_KEPT:]
        return bool(text)

    def tail(self) -> str:
        """The last few thousand characters written before now."""
        while self._source.poll() and self.read_on():
            pass
        return self._tail.decode(errors="replace")
