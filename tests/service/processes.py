"""Looking at the processes of a service from outside, and running one that may be killed."""

import os
import socket
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import httpx

CALLER = httpx.Client(limits=httpx.Limits(max_keepalive_connections=0))
"""Asks as `httpx.get` does, a connection each, without the 30 ms of processor time that `httpx.get`
takes each time to read the certificates of the system. A loop that waits for a plan with it would
otherwise keep half a core from the solves that it waits for."""


def until(claim: Callable[[], bool], *, seconds: float = 30.0, pause: float = 0.02) -> None:
    """Wait until the claim is true, looking again after a pause; fail after so many seconds [s]."""
    end = time.monotonic() + seconds
    while not claim():
        assert time.monotonic() < end, "waited in vain"
        time.sleep(pause)


@contextmanager
def meanwhile(seconds: float, call: Callable[..., object], *arguments: object) -> Iterator[None]:
    """Have another thread call something after so long [s], and end only when the call has ended.

    A thread that outlives its test fails whatever comes next, once what it uses is closed.
    """
    thread = threading.Timer(seconds, call, arguments)
    thread.start()
    try:
        yield
    finally:
        thread.join()


def parent_of(process: int) -> int:
    """The parent of a process, 0 where there is none or it is dead."""
    try:
        stat = Path(f"/proc/{process}/stat").read_text(encoding="ascii", errors="replace")
    except OSError:
        return 0
    state, parent, *_ = stat.rpartition(")")[2].split()
    return 0 if state == "Z" else int(parent)


def command_of(process: int) -> str:
    """The command line of a process, empty where there is none."""
    try:
        return Path(f"/proc/{process}/cmdline").read_text(encoding="utf-8", errors="replace")
    except OSError:
        return ""


def solving_under(service: int, job: str = "") -> list[int]:
    """The processes that solve for a service: its grandchildren, by way of the fork server.

    With a job, only those whose fork server was started for it.
    """
    processes = [int(entry.name) for entry in Path("/proc").iterdir() if entry.name.isdigit()]
    return [
        process
        for process in processes
        if parent_of(parent_of(process)) == service and job in command_of(parent_of(process))
    ]


def has_its_request(process: int) -> bool:
    """Whether a child has taken its request: a second thread of it then listens for more.

    One that dies before counts as a failed start, and not as an attempt at its plan.
    """
    try:
        return len(list(Path(f"/proc/{process}/task").iterdir())) > 1
    except OSError:
        return False


def the_only_solve(service: int, job: str = "") -> int:
    """The process that solves for a service, once there is only one and it has its request.

    A process that has answered is there for a moment longer than its plan runs.
    """
    found: list[int] = []

    def is_alone() -> bool:
        found[:] = solving_under(service, job)
        return len(found) == 1 and has_its_request(found[0])

    until(is_alone)
    return found[0]


@dataclass
class RunningService:
    """A service in a process of its own, on a database that outlives it."""

    environment: dict[str, str]
    log: Path
    module: str = "tests.service.serve"
    process: subprocess.Popen | None = None

    @property
    def url(self) -> str:
        """Where it answers."""
        return f"http://127.0.0.1:{self.environment['HAULWRIGHT_PORT']}"

    def start(self, *, seconds: float = 60) -> None:
        """Start it, and wait so long until it is healthy [s]."""
        with self.log.open("ab") as log:
            self.process = subprocess.Popen(
                [sys.executable, "-m", self.module],
                env={**os.environ, **self.environment},
                cwd=Path(__file__).parent.parent.parent,
                stdout=log,
                stderr=log,
            )
        until(self.is_healthy, seconds=seconds)

    def is_healthy(self) -> bool:
        """Whether it says that it is."""
        assert self.process.poll() is None, self.log.read_text(encoding="utf-8")
        try:
            return CALLER.get(f"{self.url}/healthz", timeout=30).status_code == 200
        except httpx.TransportError:
            return False

    def end(self, number: int) -> float:
        """Send a signal and wait for the end; gives the time that it took [s]."""
        begin = time.monotonic()
        self.process.send_signal(number)
        self.process.wait(timeout=20)
        return time.monotonic() - begin

    def ask(self, **members) -> str:
        """The name of a plan just accepted."""
        answer = CALLER.post(f"{self.url}/v1/plans", json=members, timeout=30)
        assert answer.status_code == 202, answer.text
        return answer.json()["plan_id"]

    def read(self, plan_id: str) -> dict:
        """The plan of that name."""
        return CALLER.get(f"{self.url}/v1/plans/{plan_id}", timeout=30).json()

    def finished(self, plan_id: str) -> dict:
        """The plan of that name once it is final."""
        until(lambda: self.read(plan_id)["state"] in ("done", "failed"), seconds=20)
        return self.read(plan_id)


def free_port() -> int:
    """A port on which nobody listens."""
    with socket.create_server(("127.0.0.1", 0)) as server:
        return server.getsockname()[1]
