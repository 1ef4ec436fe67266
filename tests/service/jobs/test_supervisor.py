"""How one solve in a child process ends, whatever the child does.

The file is long because it is one list of ways in which a child can end.
"""

import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from multiprocessing.connection import Connection

import pytest

from service.jobs import supervisor as supervisor_module
from service.jobs.child_log import ChildLog
from service.jobs.launcher import Launcher
from service.jobs.machine_share import MachineShare
from service.jobs.supervisor import Answered, Broken, NotStarted, Stopped, Supervisor
from service.jobs.watchdog import Watchdog
from tests.service.fake_jobs import PROGRESS

MEMORY_BYTES = 400 * 1024 * 1024


@pytest.fixture(scope="module")
def launcher() -> Iterator[Launcher]:
    """Children that obey the order in their request."""
    started = Launcher("tests.service.fake_jobs:obey")
    started.warm_up()
    yield started
    started.close()


@pytest.fixture
def supervisor(launcher) -> Supervisor:
    """A supervisor of obedient children, with half a second of grace."""
    return Supervisor(launcher, memory_bytes=MEMORY_BYTES, grace_seconds=0.5)


def listener(told: list):
    """Notes what a child tells, and never asks it to finish early."""

    def look(progress) -> bool:
        told.append(progress)
        return False

    return look


def run(supervisor: Supervisor, order: str, *, wall_seconds: float = 20.0, **members):
    """How a child ends that is given this order, and the progress that it told."""
    told = []
    # A child that nothing ends is a failure, not a hanging test.
    patience_ends = time.monotonic() + 15
    end = supervisor.run(
        json.dumps({"order": order, **members}).encode(),
        wall_seconds=wall_seconds,
        on_look=listener(told),
        must_stop=lambda: time.monotonic() > patience_ends,
    )
    return end, [progress for progress in told if progress is not None]


def test_answer_comes_from_another_process(supervisor):
    """A job runs outside the process that asks for it."""
    end, _ = run(supervisor, "answer")
    assert isinstance(end, Answered)
    assert json.loads(end.outcome)["process"] != os.getpid()


def test_the_kernel_bounds_the_processor_time_of_a_child(supervisor):
    """Even where nobody watches: as many threads as may be asked for, its time and a minute."""
    end, _ = run(supervisor, "cpu_limit", wall_seconds=20.0)
    assert end == Answered(str(8 * (20 + 60)).encode())


def test_a_tiny_job_is_cheap_once_the_server_runs(supervisor):
    """With the fork server warm, ten tiny jobs take under 150 ms each."""
    run(supervisor, "answer")
    begin = time.monotonic()
    for _ in range(10):
        run(supervisor, "answer")
    assert time.monotonic() - begin < 1.5


@pytest.mark.parametrize(
    ("ends_in", "most", "least"), [(None, 20.5, 20.5), (9.0, 9.5, 2.5), (-9.0, 2.5, 2.5)]
)
def test_what_the_start_of_a_child_takes_can_count(supervisor, monkeypatch, ends_in, most, least):
    """With a moment to end at, a child has the time until then and the grace, and at least two."""
    watched = []

    class Noted(Watchdog):
        def __init__(self, child, *, seconds, **how) -> None:
            watched.append((seconds, how["times_more"]))
            super().__init__(child, seconds=seconds, **how)

    monkeypatch.setattr(supervisor_module, "Watchdog", Noted)
    end = supervisor.run(
        json.dumps({"order": "answer"}).encode(),
        wall_seconds=20.0,
        on_look=listener([]),
        must_stop=lambda: False,
        ends_at=None if ends_in is None else time.monotonic() + ends_in,
    )
    assert isinstance(end, Answered)
    ((seconds, times_more),) = watched
    assert least <= seconds <= most
    assert times_more == (3 if ends_in is None else 0)


def test_progress_is_passed_on(supervisor):
    """What a job tells while it works reaches the caller before the answer."""
    _, told = run(supervisor, "tell", seconds=0.2)
    assert told == [PROGRESS]


def test_a_talkative_child_is_not_blocked(supervisor):
    """A child that writes more to standard error than a pipe holds still answers."""
    end, _ = run(supervisor, "shout")
    assert isinstance(end, Answered)


@pytest.mark.parametrize(
    ("order", "code", "worth_retrying"),
    [
        ("crash", "solver_crashed", True),
        ("fault", "solver_error", False),
        ("eat_memory", "solver_out_of_memory", False),
        ("abort_like_cpp", "solver_out_of_memory", False),
    ],
)
def test_each_way_to_break_has_its_code(supervisor, order, code, worth_retrying):
    """A child that breaks is told apart by how it broke, and only a crash is worth another try."""
    end, _ = run(supervisor, order)
    assert end == Broken(code, worth_retrying=worth_retrying)


def test_a_hanging_child_is_killed_at_limit_plus_grace(supervisor):
    """A deaf child ends between its limit plus grace and one second more, told as timed out."""
    begin = time.monotonic()
    end, _ = run(supervisor, "hang", wall_seconds=0.5)
    taken_seconds = time.monotonic() - begin
    assert end == Broken("solver_timed_out", worth_retrying=False)
    assert 1.0 <= taken_seconds < 2.0


def test_stop_is_answered_within_half_a_second(supervisor):
    """A caller that asks for the end gets it at once; the job counts as stopped."""
    begin = time.monotonic()
    end = supervisor.run(
        b'{"order": "hang"}',
        wall_seconds=20.0,
        on_look=lambda _: False,
        must_stop=lambda: time.monotonic() - begin > 0.3,
    )
    assert end == Stopped()
    assert time.monotonic() - begin < 0.8


def test_a_listener_that_raises_ends_the_child(supervisor):
    """When the lease is lost while a child works, the exception comes out and no child stays."""

    def refuse(_):
        raise LookupError

    begin = time.monotonic()
    with pytest.raises(LookupError):
        supervisor.run(
            b'{"order": "hang"}', wall_seconds=20.0, on_look=refuse, must_stop=lambda: False
        )
    assert time.monotonic() - begin < 5


def test_a_dead_fork_server_is_replaced(launcher, supervisor):
    """After the fork server was killed, the next job is served by a new one."""
    launcher._server.kill()
    launcher._server.wait()
    end, _ = run(supervisor, "answer")
    assert isinstance(end, Answered)


def test_a_job_that_cannot_be_loaded_is_no_fault_of_the_plan():
    """With a job path that leads nowhere, a run ends as not started, and does not hang."""
    broken = Launcher("tests.service.fake_jobs:no_such_job")
    end, _ = run(Supervisor(broken, memory_bytes=MEMORY_BYTES, grace_seconds=0.5), "answer")
    broken.close()
    assert end == NotStarted()


def test_a_server_that_is_still_loading_ends_at_once():
    """Closed while its fork server loads, a launcher ends it within two seconds."""
    loading = Launcher("tests.service.slow_to_load:job")
    loading.warm_up()
    server = loading._server
    begin = time.monotonic()
    loading.close()
    assert time.monotonic() - begin < 2
    assert server.returncode is not None


def test_the_clock_starts_when_the_child_is_ready():
    """A job of 0.6 s with 0.3 s and a grace of 0.5 s ends well, though loading takes a second."""
    cold = Launcher("tests.service.loads_in_a_second:obey")
    supervisor = Supervisor(cold, memory_bytes=MEMORY_BYTES, grace_seconds=0.5)
    end, _ = run(supervisor, "sleep", wall_seconds=0.3, seconds=0.6)
    cold.close()
    assert isinstance(end, Answered)


def test_one_fork_server_serves_two_jobs():
    """Each supervisor's children run its own job, and no second server is started."""
    launcher = Launcher("tests.service.fake_jobs:obey", "tests.service.fake_jobs:refuse")
    limits = {"memory_bytes": MEMORY_BYTES, "grace_seconds": 0.5}
    for _ in range(2):
        end, _ = run(Supervisor(launcher, **limits), "answer")
        assert json.loads(end.outcome)["process"] != os.getpid()
        end, _ = run(Supervisor(launcher, **limits, job=1), "answer")
        assert end == Answered(b"refused")
    launcher.close()
    assert launcher._servers == 1


def test_a_stopped_fork_server_is_replaced(launcher, supervisor):
    """While somebody has stopped the fork server a job is not started; the next one is."""
    os.kill(launcher._server.pid, signal.SIGSTOP)
    begin = time.monotonic()
    assert run(supervisor, "answer")[0] == NotStarted()
    assert time.monotonic() - begin < 3
    assert isinstance(run(supervisor, "answer")[0], Answered)


def test_a_child_that_is_asked_to_finish_answers_early(supervisor):
    """A job that would go on for ever answers once its caller wants what there is."""
    end = supervisor.run(
        b'{"order": "until_finish"}',
        wall_seconds=10,
        on_look=lambda _: True,
        must_stop=lambda: False,
    )
    assert json.loads(end.outcome)["finished_early"]


@pytest.fixture
def taken_processor() -> Iterator[int]:
    """A processor of which another program takes all that it can get."""
    if not hasattr(os, "sched_setaffinity"):
        pytest.skip("this system does not let a process choose its processor")
    processor = min(os.sched_getaffinity(0))
    busy = f"import os\nos.sched_setaffinity(0, {{{processor}}})\nwhile True: pass"
    other = subprocess.Popen([sys.executable, "-c", busy])
    yield processor
    other.kill()
    other.wait()


def test_a_child_that_gets_no_processor_is_not_ended_for_that(supervisor, taken_processor):
    """A job of 0.12 s, which a busy machine makes last for a second, answers with 0.6 s in all."""
    begun = time.monotonic()
    end, _ = run(supervisor, "work", wall_seconds=0.1, seconds=0.12, processor=taken_processor)
    assert isinstance(end, Answered)
    assert time.monotonic() - begun > 0.6


def test_a_solve_stands_back_while_callers_are_many(launcher, taken_processor):
    """Where another program wants its processor, it then has next to nothing, and that is noted."""
    share = MachineShare()
    solves = Supervisor(launcher, memory_bytes=MEMORY_BYTES, grace_seconds=0.5, share=share)
    order = {"order": "work", "seconds": 0.3, "processor": taken_processor}
    stops_at = time.monotonic() + 10

    def must_stop() -> bool:
        for _ in range(5):
            share.note_question()
        return share.solves_go_short() or time.monotonic() > stops_at

    document = json.dumps(order).encode()
    end = solves.run(document, wall_seconds=20.0, on_look=listener([]), must_stop=must_stop)
    assert isinstance(end, Stopped)
    assert share.solves_go_short()


def test_a_child_that_works_without_an_end_is_ended_on_a_busy_machine_too(
    launcher, taken_processor
):
    """What it gets of the processor counts, so that its time is over at last."""
    hasty = Supervisor(launcher, memory_bytes=MEMORY_BYTES, grace_seconds=0.1)
    end, _ = run(hasty, "work", wall_seconds=0.01, seconds=99, processor=taken_processor)
    assert end == Broken("solver_timed_out", worth_retrying=False)


def test_the_last_words_of_a_child_are_kept_and_the_first_are_not():
    """Of 10,000 characters the last 4,096 are kept, without waiting for more."""
    theirs, ours = os.pipe()
    os.write(ours, b"a" * 9_000 + b"b" * 1_000)
    words = ChildLog(Connection(theirs)).tail()
    os.close(ours)
    assert words == "a" * 3_096 + "b" * 1_000
