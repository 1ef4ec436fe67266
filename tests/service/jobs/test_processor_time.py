"""What a process has had of processors, as the system tells it."""

import os
import subprocess
import sys
import time

import pytest

from service.jobs.processor_time import processor_time_of
from tests.service.processes import until

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="only Linux tells of others")


def test_a_process_that_works_wants_more_and_has_had_what_it_used():
    """This one, after a tenth of a second of work: the same time as its own clock has."""
    ends = time.process_time() + 0.1
    while time.process_time() < ends:
        pass
    had = processor_time_of(os.getpid())
    assert had is not None
    assert had.wants_more
    assert had.seconds == pytest.approx(time.process_time(), abs=0.05)


def test_a_process_that_sleeps_wants_nothing():
    """One that waits for its standard input has nothing to do."""
    sleeper = subprocess.Popen(["cat"], stdin=subprocess.PIPE)

    def sleeps() -> bool:
        had = processor_time_of(sleeper.pid)
        return had is not None and not had.wants_more

    try:
        until(sleeps, seconds=10)
    finally:
        sleeper.kill()
        sleeper.communicate()


def test_nothing_is_told_of_a_process_that_is_gone():
    """Nor of one that never was."""
    gone = subprocess.Popen(["true"])
    gone.wait()
    assert processor_time_of(gone.pid) is None
    assert processor_time_of(0) is None
