"""The distributed engine under trial: an API and two workers on a PostgreSQL that is killed, too.

Whatever is killed is started again at once, as an orchestrator does.
"""

import os
import signal
import subprocess
import sys
import time
from dataclasses import dataclass, field

import psycopg

from tests.reliability.trial import ROOT, Trial
from tests.service.postgres import Server, programs
from tests.service.processes import solving_under

LEASE_SECONDS = 3
"""Short, so that fifty freezes past it do not take an hour [s]."""
_MODULES = {
    "api": "tests.service.serve",
    "worker 1": "tests.service.worker",
    "worker 2": "tests.service.worker",
}
_PLANTED_MODULES = {
    "api": "tests.reliability.planted",
    "worker 1": "tests.reliability.planted_worker",
    "worker 2": "tests.reliability.planted_worker",
}


@dataclass
class DistributedTrial(Trial):
    """Three processes on a database of PostgreSQL."""

    server: Server | None = None
    processes: dict[str, subprocess.Popen] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """Start a server with an empty database."""
        super().__post_init__()
        self.server = Server(programs())
        self.server.start()
        self.environment |= {
            "HAULWRIGHT_DATABASE_URL": self.server.make("trial"),
            "HAULWRIGHT_LEASE_SECONDS": str(LEASE_SECONDS),
            "HAULWRIGHT_SOLVE_WORKERS": "1",
        }

    def start(self) -> None:
        """Start whatever does not run; with the planted fault, if there is one."""
        modules = _MODULES
        if self.planted is not None:
            self.environment["PLANTED_FAULT"] = self.planted
            modules = _PLANTED_MODULES
        for name, module in modules.items():
            if name in self.processes and self.processes[name].poll() is None:
                continue
            with (self.folder / "log").open("ab") as log:
                self.processes[name] = subprocess.Popen(
                    [sys.executable, "-m", module],
                    env=self.environment,
                    cwd=ROOT,
                    stdout=log,
                    stderr=log,
                )
        self.process = self.processes["api"]

    def kill_one(self, name: str) -> None:
        """Kill one process, and start it again."""
        self.processes[name].kill()
        self.processes[name].wait()
        self.start()

    def kill(self) -> None:
        """Kill every process and the server."""
        for process in self.processes.values():
            process.kill()
            process.wait()
        self.server.remove()

    def kill_postgres(self, pause: float) -> bool:
        """Kill PostgreSQL with all its processes, and start it after so long [s].

        Gives whether a request in between was refused as it must be.
        """
        self.server.kill()
        is_refused = self.is_refused()
        # Processes of the server that outlive the first one end by themselves.
        time.sleep(pause)
        self.server.start()
        return is_refused

    def count(self, query: str) -> int:
        """The one number that a query gives."""
        with psycopg.connect(self.environment["HAULWRIGHT_DATABASE_URL"]) as connection:
            return connection.execute(query).fetchone()[0]

    def workers(self) -> list[str]:
        """The names of the workers."""
        return [name for name in self.processes if name != "api"]

    def busy_workers(self) -> list[str]:
        """The workers that solve now."""
        return [name for name in self.workers() if solving_under(self.processes[name].pid)]

    def children(self) -> list[int]:
        """The processes that solve."""
        return [
            child for name in self.workers() for child in solving_under(self.processes[name].pid)
        ]

    def freeze_one(self, name: str, seconds: float) -> None:
        """Stop one process with a signal, and let it go on after so long [s]."""
        os.kill(self.processes[name].pid, signal.SIGSTOP)
        time.sleep(seconds)
        os.kill(self.processes[name].pid, signal.SIGCONT)
