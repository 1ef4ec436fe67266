"""The web process's end of the fork server, where it cannot start a child."""

import errno
import gc
import os
from pathlib import Path

import pytest

from service.jobs import launcher as launcher_module
from service.jobs.child_process import JobLimits
from service.jobs.launcher import Launcher

OPEN_FILES = Path("/proc/self/fd")


@pytest.mark.parametrize("broken", ["first pipe", "second pipe", "server"])
def test_a_launch_that_fails_leaves_no_descriptor_open(monkeypatch, broken):
    """Without room for another pipe, or without a fork server, it closes what it has opened."""
    pipes = iter([OSError] if broken == "first pipe" else [os.pipe, OSError])

    def pipe() -> tuple[int, int]:
        make = next(pipes)
        if make is OSError:
            raise OSError(errno.EMFILE, "")
        return make()

    def refuse(*_) -> None:
        raise OSError(errno.EPIPE, "")

    launcher = Launcher("nothing:at_all")
    monkeypatch.setattr(launcher_module, "_start_server", refuse)
    if broken != "server":
        monkeypatch.setattr(os, "pipe", pipe)
    before = set(OPEN_FILES.iterdir())
    with pytest.raises(OSError, match="Errno"):
        launcher.launch(JobLimits(1.0, 1))
    monkeypatch.undo()
    gc.collect()
    assert set(OPEN_FILES.iterdir()) == before
