"""When solves stand back for callers, and when they have gone short for too long."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from service.jobs import machine_share
from service.jobs.machine_share import MachineShare, stand_back


class Clock:
    """A clock that goes on when told."""

    now = 0.0


@pytest.fixture
def clock(monkeypatch) -> Clock:
    """The clock of the module."""
    made = Clock()
    monkeypatch.setattr(machine_share.time, "monotonic", lambda: made.now)
    return made


@pytest.fixture
def share(clock) -> MachineShare:
    """One that has seen nothing."""
    return MachineShare()


def solve_on(share: MachineShare, clock: Clock, *, seconds: float, waits: float) -> None:
    """Two solves that wait for a processor for so much of their time, for so long [s]."""
    for _ in range(round(seconds * 10)):
        clock.now += 0.1
        for _ in range(2):
            share.note_solve(0.1, waits * 0.1)


@pytest.mark.parametrize(
    ("waits", "short"), [(0.0, False), (0.75, False), (0.85, True), (1.0, True)]
)
def test_who_waits_most_of_the_time_goes_short(share, clock, waits, short):
    """With less than a fifth of the time on a processor, after ten seconds of it."""
    solve_on(share, clock, seconds=10, waits=waits)
    assert share.solves_go_short() is short


def test_a_moment_of_waiting_is_nothing(share, clock):
    """Two seconds without any processor, at the beginning or after a good time, are no shortage."""
    solve_on(share, clock, seconds=2, waits=1.0)
    assert not share.solves_go_short()
    solve_on(share, clock, seconds=20, waits=0.0)
    solve_on(share, clock, seconds=2, waits=1.0)
    assert not share.solves_go_short()


def test_a_shortage_ends_with_its_cause_and_with_the_solves(share, clock):
    """Five seconds with a processor end it, or fifteen in which nothing is solved."""
    solve_on(share, clock, seconds=30, waits=1.0)
    assert share.solves_go_short()
    solve_on(share, clock, seconds=5, waits=0.0)
    assert not share.solves_go_short()
    solve_on(share, clock, seconds=30, waits=1.0)
    clock.now += 15
    assert not share.solves_go_short()


@pytest.mark.parametrize(("a_second", "many"), [(5, False), (12, False), (20, True), (60, True)])
def test_callers_are_many_by_what_they_ask_a_second(share, clock, a_second, many):
    """Whether more than fifteen a second come, after three seconds of it, and no more once gone."""
    for _ in range(3 * a_second):
        clock.now += 1 / a_second
        share.note_question()
    assert share.callers_are_many() is many
    clock.now += 2
    assert not share.callers_are_many()


@pytest.mark.skipif(sys.platform != "linux", reason="only Linux has such processes")
def test_every_thread_of_a_process_stands_back():
    """Those that it has, and with them those that they start later."""
    program = (
        "import os, sys, threading\n"
        "threading.Thread(target=sys.stdin.readline, daemon=True).start()\n"
        "print(flush=True); sys.stdin.readline()\n"
    )
    pipes = {"stdin": subprocess.PIPE, "stdout": subprocess.PIPE}
    with subprocess.Popen([sys.executable, "-c", program], **pipes) as process:
        process.stdout.readline()
        stand_back(process.pid)
        threads = list(Path(f"/proc/{process.pid}/task").iterdir())
        kinds = [os.sched_getscheduler(int(thread.name)) for thread in threads]
        assert kinds == [os.SCHED_IDLE] * 2
        process.kill()


def test_nothing_comes_of_a_process_that_is_gone():
    """Nor of one whose number is not known yet."""
    gone = subprocess.Popen(["true"])
    gone.wait()
    for process in (gone.pid, 0):
        stand_back(process)
    if sys.platform == "linux":
        assert os.sched_getscheduler(0) == os.SCHED_OTHER
