"""Calls shared by two processes: each is answered once, and nothing stays behind."""

import multiprocessing
import os
import signal
import time
from multiprocessing.connection import Connection

import pytest

from service.jobs.two_ends import from_both_ends
from tests.service.processes import until


def _alive(process_id: int) -> bool:
    try:
        os.kill(process_id, 0)
    except ProcessLookupError:
        return False
    return True


def _who(_: int) -> int:
    time.sleep(0.02)
    return os.getpid()


def test_every_call_is_answered_once_and_two_processes_take_part() -> None:
    """Forty calls of 20 ms; the second process is gone afterwards."""
    answers = list(from_both_ends(range(40), _who, lambda: False))
    assert sorted(asked for asked, _ in answers) == list(range(40))
    others = {found for _, found in answers} - {os.getpid()}
    assert len(others) == 1
    assert not any(_alive(process_id) for process_id in others)


def test_nothing_more_is_asked_once_the_time_is_over() -> None:
    """It ends after five answers, and gives no more than were found by then."""
    answers: list[int] = []
    for asked, _ in from_both_ends(range(1_000), _who, lambda: len(answers) >= 5):
        answers.append(asked)
    assert 5 <= len(answers) < 20
    assert len(set(answers)) == len(answers)


def test_the_first_calls_are_made_first() -> None:
    """Where the time ends after ten answers, the last ones of forty have not been asked."""
    answers: list[int] = []
    for asked, _ in from_both_ends(range(40), _who, lambda: len(answers) >= 10):
        answers.append(asked)
    assert max(answers) < 30
    assert {0, 1, 2, 3} <= set(answers)


def _fails_elsewhere(asked: int) -> tuple[int, int]:
    if os.getpid() != _OWN:
        raise ValueError(asked)
    return asked, os.getpid()


_OWN = os.getpid()


def test_what_fails_beside_is_done_here() -> None:
    """Where each call of the other process raises, this one makes them all."""
    answers = [found for _, found in from_both_ends(range(9), _fails_elsewhere, lambda: False)]
    assert sorted(answers) == [(asked, _OWN) for asked in range(9)]


def test_a_call_that_fails_here_fails_and_ends_the_other_process() -> None:
    """The error comes out, and nobody goes on."""

    def fails(asked: int) -> int:
        if asked == 2:
            raise ValueError(asked)
        return os.getpid()

    seen: set[int] = set()
    calls = from_both_ends(range(5), fails, lambda: False)
    with pytest.raises(ValueError, match="2"):
        seen.update(found for _, found in calls)
    assert not any(_alive(other) for other in seen - {os.getpid()})


def _begin(told: Connection) -> None:
    def tells(_: int) -> int:
        if os.getpid() != own:
            told.send(os.getpid())
            time.sleep(60)
        time.sleep(0.05)
        return 0

    own = os.getpid()
    list(from_both_ends(range(2_000), tells, lambda: False))


def test_the_other_process_dies_with_this_one() -> None:
    """The process that shares its calls is killed; the one that it made ends, too."""
    here, there = multiprocessing.Pipe()
    begun = multiprocessing.get_context("fork").Process(target=_begin, args=(there,))
    begun.start()
    other = here.recv()
    assert begun.pid is not None
    os.kill(begun.pid, signal.SIGKILL)
    begun.join()
    until(lambda: not _alive(other), seconds=20)
