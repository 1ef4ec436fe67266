"""A PostgreSQL server of its own for tests, where its programs are to be had."""

import os
import pwd
import shutil
import signal
import subprocess
import tempfile
from collections.abc import Sequence
from pathlib import Path

from tests.service.processes import free_port, until

_ACCOUNTS = ("postgres", "nobody")


def programs() -> Path | None:
    """The folder of PostgreSQL's programs, None where there are none."""
    homes = sorted(Path("/usr/lib/postgresql").glob("*/bin/initdb"))
    found = str(homes[-1]) if homes else shutil.which("initdb")
    return Path(found).resolve().parent if found else None


class Server:
    """A server on a port of its own. It may be killed and started again."""

    def __init__(self, bin_folder: Path) -> None:
        self._bin = bin_folder
        self._folder = Path(tempfile.mkdtemp(prefix="haulwright-postgres-"))
        self._account = None
        if os.getuid() == 0:
            # PostgreSQL refuses to run as root.
            self._account = next(a for a in _ACCOUNTS if _has_account(a))
            shutil.chown(self._folder, self._account)
        self.port = free_port()
        self._process: subprocess.Popen | None = None
        self._run("initdb", "-D", f"{self._folder}/data", "-U", "tester", "-A", "trust", "-N")

    def start(self) -> None:
        """Start, and wait until it answers."""
        options = ["-D", f"{self._folder}/data", "-p", str(self.port), "-h", "127.0.0.1"]
        options += ["-k", str(self._folder)]
        self._process = subprocess.Popen(
            self._command("postgres", *options),
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
        )
        until(self._answers, seconds=30)

    def make(self, name: str) -> str:
        """The address of a new database."""
        self._run("createdb", "-h", "127.0.0.1", "-p", str(self.port), "-U", "tester", name)
        return f"postgresql://tester@127.0.0.1:{self.port}/{name}"

    def kill(self) -> None:
        """Kill the server and all its processes, as a power cut does."""
        os.killpg(self._process.pid, signal.SIGKILL)
        self._process.wait()

    def remove(self) -> None:
        """End the server and delete its data."""
        if self._process is not None and self._process.poll() is None:
            self.kill()
        shutil.rmtree(self._folder, ignore_errors=True)

    def _answers(self) -> bool:
        asked = subprocess.run(
            self._command("pg_isready", "-q", "-h", "127.0.0.1", "-p", str(self.port)),
            check=False,
        )
        return asked.returncode == 0

    def _run(self, *arguments: str) -> None:
        subprocess.run(self._command(*arguments), check=True, capture_output=True)

    def _command(self, program: str, *arguments: str) -> Sequence[str]:
        command = [str(self._bin / program), *arguments]
        if self._account is None:
            return command
        entry = pwd.getpwnam(self._account)
        ids = [f"--reuid={entry.pw_uid}", f"--regid={entry.pw_gid}", "--clear-groups"]
        return ["setpriv", *ids, "--", *command]


def _has_account(name: str) -> bool:
    try:
        pwd.getpwnam(name)
    except KeyError:
        return False
    return True
