"""Starts what the compose file does, without containers: PostgreSQL, an API, two workers.

`python -m tests.reliability.topology` serves until it is interrupted;
`python -m tests.reliability.topology --once` solves the smallest request, and ends.
"""

import contextlib
import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import httpx

from api_schema.examples import SMALLEST_REQUEST
from tests.reliability.compose import MANY, Part, parts
from tests.service.postgres import Server, programs
from tests.service.processes import CALLER, free_port

ROOT = Path(__file__).parents[2]


@contextlib.contextmanager
def topology() -> Iterator[tuple[str, list[subprocess.Popen]]]:
    """The address of an API with two workers behind it, and the three processes.

    All end with the context. What they run and with which settings stands in the compose file.
    """
    found = programs()
    if found is None:
        sys.exit("PostgreSQL is not installed.")
    server = Server(found)
    server.start()
    port = free_port()
    own = {
        "HAULWRIGHT_DATABASE_URL": server.make("haulwright"),
        "HAULWRIGHT_PORT": str(port),
        "HAULWRIGHT_ALIVE_FILE": "",
    }
    processes = [_start(part, own) for part in parts(MANY) for _ in range(part.replicas)]
    try:
        yield f"http://127.0.0.1:{port}", processes
    finally:
        for process in processes:
            process.send_signal(signal.SIGTERM)
        for process in processes:
            process.wait(timeout=30)
        server.remove()


def _start(part: Part, own: dict[str, str]) -> subprocess.Popen:
    """One service of the compose file on this machine, with addresses of its own."""
    return subprocess.Popen(
        [sys.executable, *part.command[1:]],
        env={**os.environ, **part.environment, **own},
        cwd=ROOT,
    )


def main() -> None:
    """Serve, or solve once."""
    with topology() as (url, processes):
        while True:
            with contextlib.suppress(httpx.TransportError):
                if CALLER.get(f"{url}/readyz").status_code == 200:
                    break
            time.sleep(0.2)
        print(f"The API answers at {url}, with {len(processes) - 1} workers behind it.", flush=True)
        if "--once" not in sys.argv[1:]:
            with contextlib.suppress(KeyboardInterrupt):
                signal.pause()
            return
        answer = CALLER.post(
            f"{url}/v1/plans",
            json=SMALLEST_REQUEST,
            headers={"Prefer": "wait=60"},
            timeout=90,
        )
        outcome = answer.json()["outcome_kind"]
        print(f"The smallest request: {answer.status_code}, {outcome}.", flush=True)
        if outcome != "solved":
            sys.exit("It was not solved.")


if __name__ == "__main__":
    main()
