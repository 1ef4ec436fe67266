"""The web process's end of the fork server: start it, ask it for children, hold their lifelines."""

import os
import socket
import subprocess
import sys
import threading
import time
from multiprocessing.connection import Connection
from pathlib import Path

from service.jobs.child_process import JobLimits
from service.jobs.fork_server import AT_A_DESK, LIMITS_FORMAT

_END_SECONDS = 0.5
"""Time for the fork server to end by itself [s]."""
_SEND_SECONDS = 5.0
"""Time in which the fork server must take a message from a full socket [s]."""
_PASSED_ON = frozenset(
    {"PATH", "HOME", "LANG", "LANGUAGE", "TZ", "TMPDIR", "TEMP", "TMP", "LD_LIBRARY_PATH"}
    | {"VIRTUAL_ENV", "XDG_CACHE_HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_DATA_DIRS"}
)
_PASSED_ON_BEGINNINGS = ("LC_", "PYTHON", "FONTCONFIG_", "MALLOC_", "OMP_")
"""What the environment of children has: folders, language, time zone, fonts, memory, threads."""


class Child:
    """One child process: a connection to talk, its log, and the pipe that its life hangs on.

    `server` counts the fork servers of a launcher; it names the one that the child comes from.
    `process` is the id of its process once it has said that it is ready, and 0 before.
    """

    def __init__(self, talk: Connection, log: Connection, lifeline: int) -> None:
        self.talk = talk
        self.log = log
        self.server = 0
        self.process = 0
        self._lifeline: int | None = lifeline
        self._lock = threading.Lock()

    def end(self) -> None:
        """Have the kernel kill the child; may be called again, and from any thread."""
        with self._lock:
            if self._lifeline is not None:
                os.close(self._lifeline)
                self._lifeline = None

    def close(self) -> None:
        """End the child and let go of it."""
        self.end()
        self.talk.close()
        self.log.close()


class Launcher:
    """Starts children of some jobs, from a fork server that is started when first needed.

    Only the first job is loaded at the start. The others should need little that the first does
    not. A child takes one request, or one question after another `at_a_desk`.
    """

    def __init__(self, *job_paths: str, at_a_desk: bool = False) -> None:
        self._arguments = [*job_paths, *([AT_A_DESK] if at_a_desk else [])]
        self._lock = threading.Lock()
        self._server: subprocess.Popen[bytes] | None = None
        self._control: socket.socket | None = None
        self._servers = 0
        self._begun = time.monotonic()

    def warm_up(self) -> None:
        """Start the fork server, so that it loads the solver before the first job comes."""
        with self._lock:
            self._ready_control()

    def launch(self, limits: JobLimits, *, job: int = 0) -> Child:
        """A new child of a job, counted from 0, that says when it is ready.

        Raises OSError where the fork server is broken.
        """
        message = LIMITS_FORMAT.pack(limits.wall_seconds, limits.memory_bytes, job)
        child, passed = _new_child()
        try:
            with self._lock:
                socket.send_fds(self._ready_control(), [message], passed)
                child.server = self._servers
        except OSError:
            child.close()
            raise
        finally:
            for descriptor in passed:
                os.close(descriptor)
        return child

    def is_stopped(self) -> bool:
        """Whether somebody has stopped the fork server with a signal, where that can be seen."""
        server = self._server
        if server is None:
            return False
        try:
            stat = Path(f"/proc/{server.pid}/stat").read_text(encoding="ascii", errors="replace")
        except OSError:
            return False
        return stat.rpartition(")")[2].split()[0] in ("T", "t")

    def age_seconds(self) -> float:
        """Time since the fork server that serves was started [s]."""
        return time.monotonic() - self._begun

    def replace(self, server: int) -> None:
        """Kill the fork server of that count, if it is still the one that serves, and start anew.

        Its children live on: their lives hang on this process.
        """
        with self._lock:
            if self._servers == server and self._server is not None:
                self._server.kill()
                self._end_server()
            self._ready_control()

    def close(self) -> None:
        """End the fork server and wait for its end."""
        with self._lock:
            self._end_server()

    def _ready_control(self) -> socket.socket:
        if self._server is not None and self._server.poll() is not None:
            self._end_server()
        if self._control is None:
            ours, theirs = socket.socketpair()
            ours.settimeout(_SEND_SECONDS)
            with theirs:
                try:
                    self._server = _start_server(theirs.fileno(), self._arguments)
                except OSError:
                    ours.close()
                    raise
            self._control = ours
            self._servers += 1
            self._begun = time.monotonic()
        return self._control

    def _end_server(self) -> None:
        if self._control is not None:
            self._control.close()
            self._control = None
        if self._server is not None:
            try:
                self._server.wait(timeout=_END_SECONDS)
            except subprocess.TimeoutExpired:
                # It hears of the end only once it has loaded the solver, which may take seconds.
                self._server.kill()
                self._server.wait()
            self._server = None


def _new_child() -> tuple[Child, list[int]]:
    """Our ends of a child's socket and pipes, and the descriptors of its own."""
    opened: list[int] = []
    try:
        opened += (one.detach() for one in socket.socketpair())
        opened += os.pipe()
        opened += os.pipe()
    except OSError:
        for descriptor in opened:
            os.close(descriptor)
        raise
    talk, theirs, log, log_write, lifeline_read, lifeline = opened
    child = Child(Connection(talk), Connection(log), lifeline)
    return child, [theirs, log_write, lifeline_read]


def _environment_of_children() -> dict[str, str]:
    """What children need of our own environment: they read strangers' files, and get no secrets.

    What can be imported here can be imported there.
    """
    passed = {
        name: text
        for name, text in os.environ.items()
        if name in _PASSED_ON or name.startswith(_PASSED_ON_BEGINNINGS)
    }
    return {**passed, "PYTHONPATH": os.pathsep.join(sys.path)}


def _start_server(control: int, arguments: list[str]) -> subprocess.Popen[bytes]:
    return subprocess.Popen(  # noqa: S603 - our own module, and a path from our own wiring
        [sys.executable, "-m", "service.jobs.fork_server", str(control), *arguments],
        env=_environment_of_children(),
        pass_fds=[control],
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
    )
