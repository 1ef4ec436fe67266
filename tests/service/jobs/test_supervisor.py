"""How one solve in a child process ends, whatever the child does."""

import json
import os
import time
from collections.abc import Iterator

import pytest

from service.jobs.launcher import Launcher
from service.jobs.supervisor import Answered, Broken, Stopped, Supervisor

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


def run(supervisor: Supervisor, order: str, *, wall_seconds: float = 20.0, **members):
    """How a child ends that is given this order, and the progress that it told."""
    told = []
    # A child that nothing ends is a failure, not a hanging test.
    patience_ends = time.monotonic() + 15
    end = supervisor.run(
        json.dumps({"order": order, **members}).encode(),
        wall_seconds=wall_seconds,
        on_look=told.append,
        must_stop=lambda: time.monotonic() > patience_ends,
    )
    return end, [progress for progress in told if progress is not None]


def test_answer_comes_from_another_process(supervisor):
    """A job runs outside the process that asks for it."""
    end, _ = run(supervisor, "answer")
    assert isinstance(end, Answered)
    assert json.loads(end.outcome)["process"] != os.getpid()


def test_a_tiny_job_is_cheap_once_the_server_runs(supervisor):
    """With the fork server warm, ten tiny jobs take under 150 ms each."""
    run(supervisor, "answer")
    begin = time.monotonic()
    for _ in range(10):
        run(supervisor, "answer")
    assert time.monotonic() - begin < 1.5


def test_progress_is_passed_on(supervisor):
    """What a job tells while it works reaches the caller before the answer."""
    _, told = run(supervisor, "tell", seconds=0.2)
    assert told == [b'{"peak": 1}']


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
        on_look=lambda _: None,
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


def test_a_job_that_cannot_be_loaded_is_a_crash_not_a_hang():
    """With a job path that leads nowhere, a run ends as crashed."""
    broken = Launcher("tests.service.fake_jobs:no_such_job")
    end, _ = run(Supervisor(broken, memory_bytes=MEMORY_BYTES, grace_seconds=0.5), "answer")
    broken.close()
    assert end == Broken("solver_crashed", worth_retrying=True)


def test_a_server_that_is_still_loading_ends_at_once():
    """Closed while its fork server loads, a launcher ends it within two seconds."""
    loading = Launcher("tests.service.slow_to_load:job")
    loading.warm_up()
    server = loading._server
    begin = time.monotonic()
    loading.close()
    assert time.monotonic() - begin < 2
    assert server.returncode is not None
