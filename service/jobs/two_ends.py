"""Many independent calls shared by two processes: each makes every second one, until they meet.

A stress test strikes one plan hundreds of times. The second process is a fork of the first, so it
needs nothing sent to it; it sends back what it found, and is ended as soon as both have met.
"""

import contextlib
import os
import pickle
import signal
import threading
from collections.abc import Callable, Iterator, Sequence
from multiprocessing.connection import Connection, Pipe
from typing import Generic, TypeVar

Asked = TypeVar("Asked")
Found = TypeVar("Found")

_FEWEST = 4
"""For fewer calls than these a second process is not worth its start [1]."""


def from_both_ends(
    asked: Sequence[Asked], call: Callable[[Asked], Found], is_over: Callable[[], bool]
) -> Iterator[tuple[Asked, Found]]:
    """What calls give, as it comes, until all are done or the time is over.

    The first calls are made first, by both processes. A call of the second process that raises is
    made again by this one.
    """
    if len(asked) < _FEWEST or (os.cpu_count() or 1) < 2:
        helper = None
    else:
        # From one end the first, third and so on, from the other the second, fourth and so on.
        asked = [*asked[::2], *reversed(asked[1::2])]
        helper = _Helper(asked, call, is_over)
    open_calls = dict(enumerate(asked))
    try:
        while open_calls and not is_over():
            number = next(iter(open_calls))
            found = call(open_calls[number])
            yield open_calls.pop(number), found
            for other, theirs in () if helper is None else helper.heard():
                if other in open_calls:
                    yield open_calls.pop(other), theirs
    finally:
        if helper is not None:
            helper.end()


class _Helper(Generic[Asked, Found]):
    """A fork of this process that makes the calls from the end on."""

    def __init__(
        self, asked: Sequence[Asked], call: Callable[[Asked], Found], is_over: Callable[[], bool]
    ) -> None:
        mine, theirs = Pipe(duplex=False)
        held, silent = os.pipe()
        self._mine, self._silent = mine, silent
        self._process_id = os.fork()
        if self._process_id == 0:
            with contextlib.suppress(BaseException):
                os.close(silent)
                mine.close()
                _end_with(held)
                _answer(theirs, asked, call, is_over)
            os._exit(0)
        os.close(held)
        theirs.close()

    def heard(self) -> Iterator[tuple[int, Found]]:
        """What came since it was asked last: each call's number and what it gave."""
        with contextlib.suppress(EOFError, OSError):
            while self._mine.poll():
                yield pickle.loads(self._mine.recv_bytes())  # noqa: S301 - our own process

    def end(self) -> None:
        """End it, wherever it is."""
        with contextlib.suppress(ProcessLookupError):
            os.kill(self._process_id, signal.SIGKILL)
        with contextlib.suppress(ChildProcessError):
            os.waitpid(self._process_id, 0)
        self._mine.close()
        os.close(self._silent)


def _answer(
    to: Connection,
    asked: Sequence[Asked],
    call: Callable[[Asked], Found],
    is_over: Callable[[], bool],
) -> None:
    for number in reversed(range(len(asked))):
        if is_over():
            return
        to.send_bytes(pickle.dumps((number, call(asked[number]))))


def _end_with(held: int) -> None:
    """End this process as soon as nobody holds the other end of a silent pipe."""

    def wait() -> None:
        os.read(held, 1)
        os._exit(0)

    threading.Thread(target=wait, daemon=True).start()
