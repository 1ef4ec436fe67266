"""Whether a caller takes an answer fast enough, looked at once a second."""

import asyncio

import pytest
import uvicorn
from uvicorn.server import ServerState

from service.http import connection
from service.http.connection import ConnectionLimits, GuardedProtocol
from service.http.reading import MOST_PAUSES, Reading

PAUSE_SECONDS = 30


def slow_after(answer_bytes: int, bytes_a_second: float) -> int | None:
    """When a caller who reads so fast counts as too slow [s]; None if never, to the last byte."""
    reading = Reading(PAUSE_SECONDS, now=0)
    second, unsent = 0, float(answer_bytes)
    while unsent > 0:
        if reading.is_too_slow(int(unsent), now=second):
            return second
        second, unsent = second + 1, unsent - bytes_a_second
    assert not reading.is_too_slow(0, now=second)
    return None


@pytest.mark.parametrize(("answer_bytes", "rate"), [(3_000_000, 0), (3_000_000, 1), (64_000, 1)])
def test_a_caller_who_takes_nothing_or_a_trickle_is_too_slow(answer_bytes, rate):
    """A byte a second is no more than none: it ends after one pause."""
    assert slow_after(answer_bytes, rate) == PAUSE_SECONDS + 1


@pytest.mark.parametrize(
    ("answer_bytes", "rate"), [(3_000_000, 10_000), (40_000, 100), (500, 1), (3_000_000, 3e6)]
)
def test_a_slow_line_is_fast_enough(answer_bytes, rate):
    """Whoever takes a twentieth in each pause has the whole answer, a satellite phone too."""
    assert slow_after(answer_bytes, rate) is None


def test_no_answer_is_held_for_longer_than_so_many_pauses():
    """The slowest caller who is let be has taken everything by then."""
    rate = 100_000 / (MOST_PAUSES * PAUSE_SECONDS)
    assert slow_after(100_000, 1.05 * rate) is None
    assert slow_after(100_000, 0.9 * rate) is not None


def test_what_is_added_to_an_answer_is_not_held_against_the_reader():
    """A stream grows while it is read; whoever is idle between two answers was never slow."""
    reading = Reading(PAUSE_SECONDS, now=0)
    assert not any(reading.is_too_slow(0, now=second) for second in range(500))
    assert not any(reading.is_too_slow(1000 * (s % 3), now=500 + s) for s in range(500))
    assert not reading.is_too_slow(10_000, now=1000)
    assert not reading.is_too_slow(50_000, now=1025)
    assert not reading.is_too_slow(45_000, now=1026)
    assert not reading.is_too_slow(45_000, now=1056)
    assert reading.is_too_slow(45_000, now=1057)


class Sipped(asyncio.Transport):
    """A connection whose other end has taken one byte more each time that it is looked at."""

    def __init__(self) -> None:
        super().__init__()
        self.unsent = 3_000_000
        self.ended = asyncio.Event()

    def get_write_buffer_size(self) -> int:
        """What is left."""
        self.unsent -= 1
        return self.unsent

    def close(self) -> None:
        """Nothing more is sent."""

    def abort(self) -> None:
        """It was let go."""
        self.ended.set()


def test_a_connection_on_which_an_answer_is_sipped_is_let_go(monkeypatch):
    """A byte at each look does not keep it."""
    monkeypatch.setattr(connection, "_LOOK_SECONDS", 0.005)

    class Protocol(GuardedProtocol):
        limits = ConnectionLimits(5, 5, header_seconds=60, reading_seconds=0.1)

    async def sip() -> None:
        transport = Sipped()
        protocol = Protocol(uvicorn.Config(None), ServerState(), {})
        protocol.connection_made(transport)
        try:
            await asyncio.wait_for(transport.ended.wait(), 3)
        finally:
            protocol.connection_lost(None)

    asyncio.run(sip())
