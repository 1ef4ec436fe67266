"""What the clock of a child counts, and when it ends the child."""

import threading
import time
from types import SimpleNamespace

import pytest

from service.jobs import watchdog as watchdog_module
from service.jobs.machine_share import MachineShare
from service.jobs.watchdog import Watchdog


def test_time_in_which_the_parent_was_frozen_does_not_count(monkeypatch):
    """A watchdog whose clock jumps by a minute between two ticks does not bite for that."""
    ended = []
    clock = iter([0.0, 60.0, 60.1, 60.2])
    monkeypatch.setattr(watchdog_module.time, "monotonic", lambda: next(clock, 60.3))

    class Dead:
        """A child that notes its end."""

        process = 0

        def end(self) -> None:
            """Note the end."""
            ended.append(True)

    with Watchdog(Dead(), seconds=2.0) as watchdog:
        watchdog._stood_down.wait(0.3)
    assert (ended, watchdog.has_bitten) == ([], False)


@pytest.mark.parametrize(
    ("times_more", "wants_more", "worked", "counted"),
    [(3, True, 0.0, 0.0), (3, True, 0.05, 0.05), (3, True, 0.09, 0.1), (3, False, 0.0, 0.1),
     (0, True, 0.0, 0.1)],
)  # fmt: skip
def test_what_a_watchdog_counts(monkeypatch, times_more, wants_more, worked, counted):
    """Of a tenth of a second: what was worked, or all where it slept or must keep the clock."""
    had = iter([1.0, 1.0 + worked])
    monkeypatch.setattr(watchdog_module, "processor_seconds", lambda _: next(had))
    monkeypatch.setattr(watchdog_module, "wants_processor", lambda _: wants_more)
    child = SimpleNamespace(end=lambda: None, process=7)
    watchdog = Watchdog(child, seconds=9.0, times_more=times_more)
    assert watchdog._counted(0.1) == pytest.approx(counted)


@pytest.mark.parametrize(("heard", "alive"), [(0, False), (1, True), (9, True)])
def test_a_child_that_tells_of_a_stage_near_its_end_has_more_time(heard, alive):
    """It lives on for the grace, however often it tells; a silent one is ended at once."""
    ended = threading.Event()
    child = SimpleNamespace(end=ended.set, process=0)
    with Watchdog(child, seconds=0.4, grace_seconds=0.2) as watchdog:
        for _ in range(heard):
            watchdog.hear()
        assert ended.wait(0.55) is not alive
        assert ended.wait(5)


def test_time_is_not_given_without_an_end():
    """A child that tells of stages all the time is ended all the same."""
    ended = threading.Event()
    with Watchdog(
        SimpleNamespace(end=ended.set, process=0), seconds=0.2, grace_seconds=0.1
    ) as watchdog:
        for _ in range(40):
            watchdog.hear()
            if ended.wait(0.1):
                break
    assert ended.is_set()


def test_a_child_that_never_gets_a_processor_is_ended_all_the_same(monkeypatch):
    """With 0.1 s and none of them had, it waits four times as long more, and no longer."""
    monkeypatch.setattr(watchdog_module, "processor_seconds", lambda _: 1.0)
    monkeypatch.setattr(watchdog_module, "wants_processor", lambda _: True)
    ended = threading.Event()
    begin = time.monotonic()
    with Watchdog(SimpleNamespace(end=ended.set, process=7), seconds=0.1):
        assert ended.wait(10)
    assert time.monotonic() - begin >= 0.45


def test_a_share_is_told_all_that_a_child_waits(monkeypatch):
    """Also once that counts against the child, because it has waited as long as it may."""
    told = []
    monkeypatch.setattr(MachineShare, "note_solve", lambda _, *times: told.append(times))
    monkeypatch.setattr(watchdog_module, "processor_seconds", lambda _: 1.0)
    monkeypatch.setattr(watchdog_module, "wants_processor", lambda _: True)
    child = SimpleNamespace(end=lambda: None, process=7)
    watchdog = Watchdog(child, seconds=0.02, share=MachineShare())
    counted = [watchdog._counted(0.05) for _ in range(3)]
    assert counted == pytest.approx([0.0, 0.02, 0.05])
    assert told == [(0.05, 0.05)] * 3
