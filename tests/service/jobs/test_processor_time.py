"""What a process has had of processors, as the system tells it."""

import os
import subprocess
import sys
import time

import pytest

from service.jobs.processor_time import processor_seconds, wants_processor
from tests.service.processes import until

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="only Linux tells of others")


def test_a_process_that_works_wants_more_and_has_had_what_it_used():
    """This one, after a tenth of a second of work: the same time as its own clock has."""
    ends = time.process_time() + 0.1
    while time.process_time() < ends:
        pass
    assert processor_seconds(os.getpid()) == pytest.approx(time.process_time(), abs=0.05)
    assert wants_processor(os.getpid())


def test_a_process_that_sleeps_wants_nothing():
    """One that waits for its standard input has nothing to do."""
    sleeper = subprocess.Popen(["cat"], stdin=subprocess.PIPE)
    try:
        until(lambda: not wants_processor(sleeper.pid), seconds=10)
        assert processor_seconds(sleeper.pid) is not None
    finally:
        sleeper.kill()
        sleeper.communicate()


def test_nothing_is_told_of_a_process_that_is_gone():
    """Nor of one that never was."""
    gone = subprocess.Popen(["true"])
    gone.wait()
    for process in (gone.pid, 0):
        assert processor_seconds(process) is None
        assert not wants_processor(process)
