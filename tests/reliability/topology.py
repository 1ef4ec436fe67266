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
from tests.service.postgres import Server, programs
from tests.service.processes import free_port

ROOT = Path(__file__).parents[2]
WORKERS = 2


@contextlib.contextmanager
def topology(api: str = "service", worker: str = "service.worker") -> Iterator[str]:
    """The address of an API with two workers behind it; all end with the context."""
    found = programs()
    if found is None:
        sys.exit("PostgreSQL is not installed.")
    server = Server(found)
    server.start()
    port = free_port()
    environment = {
        **os.environ,
        "HAULWRIGHT_DATABASE_URL": server.make("haulwright"),
        "HAULWRIGHT_PORT": str(port),
        "HAULWRIGHT_SOLVE_WORKERS": "1",
    }
    processes = [
        subprocess.Popen([sys.executable, "-m", module], env=environment, cwd=ROOT)
        for module in (api, *[worker] * WORKERS)
    ]
    try:
        yield f"http://127.0.0.1:{port}"
    finally:
        for process in processes:
            process.send_signal(signal.SIGTERM)
        for process in processes:
            process.wait(timeout=30)
        server.remove()


def main() -> None:
    """Serve, or solve once."""
    with topology() as url:
        while True:
            with contextlib.suppress(httpx.TransportError):
                if httpx.get(f"{url}/readyz").status_code == 200:
                    break
            time.sleep(0.2)
        print(f"The API answers at {url}, with {WORKERS} workers behind it.", flush=True)
        if "--once" not in sys.argv[1:]:
            with contextlib.suppress(KeyboardInterrupt):
                signal.pause()
            return
        answer = httpx.post(
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
