"""Turns at something slow, and who is sent away."""

import threading
import time
from contextlib import ExitStack

import pytest

from service.errors import ServiceProblem
from service.jobs.turns import MOST_WAITING, Turns


class Crowd:
    """Threads that take a turn and hold it until they are let go."""

    def __init__(self, turns: Turns) -> None:
        self.turns = turns
        self.go = threading.Event()
        self.served = 0
        self.sent_away = 0
        self._count = threading.Lock()

    def come(self, number: int) -> list[threading.Thread]:
        """So many come at once."""
        threads = [threading.Thread(target=self._one) for _ in range(number)]
        for thread in threads:
            thread.start()
        return threads

    def _one(self) -> None:
        try:
            with self.turns.turn():
                self.go.wait(20)
                served = True
        except ServiceProblem:
            served = False
        with self._count:
            self.served += served
            self.sent_away += not served


def test_some_wait_and_the_others_are_sent_away_at_once():
    """Of forty, two have a turn and four wait; the others keep no thread."""
    crowd = Crowd(Turns(2, patience_seconds=20))
    threads = crowd.come(40)
    until = time.monotonic() + 10
    while crowd.sent_away < 40 - 2 - MOST_WAITING and time.monotonic() < until:
        time.sleep(0.01)
    assert sum(thread.is_alive() for thread in threads) == 2 + MOST_WAITING
    crowd.go.set()
    for thread in threads:
        thread.join(20)
    assert (crowd.served, crowd.sent_away) == (2 + MOST_WAITING, 34)


def test_whoever_waits_too_long_is_told_when_to_come_again():
    """No turn within the time is 503 with Retry-After; afterwards all places are free."""
    turns = Turns(1, patience_seconds=0.05)
    for _ in range(2 * MOST_WAITING):
        with turns.turn(), pytest.raises(ServiceProblem) as refused, turns.turn():
            pytest.fail("two had a turn at once")
        assert (refused.value.code, refused.value.kind.status) == ("readers_busy", 503)
        assert refused.value.headers == {"Retry-After": "1"}


def test_a_turn_that_fails_is_over():
    """Whatever ends it, the next one has its turn."""
    turns = Turns(1, patience_seconds=0.05)
    for _ in range(2 * MOST_WAITING):
        with pytest.raises(ZeroDivisionError), turns.turn():
            raise ZeroDivisionError
    with ExitStack() as open_ones:
        open_ones.enter_context(turns.turn())
