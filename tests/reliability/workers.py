"""Two workers against one, and PostgreSQL against a file: `bash tests/reliability/run.sh workers`.

Twenty independent requests are solved by the real solver. Two workers must take at most 1/1.8 of
the time of one; what the distributed engine costs over the embedded one is stated. Each worker
is bound to a core of its own, or one alone would borrow from the other; nothing else may run. The
control is one worker that passes for two.

What two cores are worth is measured too, by bare processes that solve the same request without any
service: two cores that share the insides of one processor are never twice as quick as one.
"""

import contextlib
import json
import os
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

from tests.reliability.load import example, service
from tests.service.postgres import Server, programs
from tests.service.processes import CALLER, RunningService, until

ROOT = Path(__file__).parents[2]
REQUESTS = 20
WANTED = 1.8


@contextlib.contextmanager
def embedded() -> Iterator[RunningService]:
    """A service with one solve at a time, on a file."""
    with tempfile.TemporaryDirectory() as folder:
        running = service(Path(folder), HAULWRIGHT_SOLVE_WORKERS="1")
        try:
            yield running
        finally:
            running.end(signal.SIGKILL)


@contextlib.contextmanager
def distributed(workers: int) -> Iterator[RunningService]:
    """An API with so many workers, each with one solve at a time."""
    server = Server(programs())
    server.start()
    own = {"HAULWRIGHT_DATABASE_URL": server.make("workers"), "HAULWRIGHT_SOLVE_WORKERS": "1"}
    with tempfile.TemporaryDirectory() as folder:
        running = service(Path(folder), **own)
        quiet = {"stdout": subprocess.DEVNULL, "stderr": subprocess.DEVNULL}
        command = [sys.executable, "-m", "service.worker"]
        crew = [
            subprocess.Popen(command, env={**os.environ, **own}, cwd=ROOT, **quiet)
            for _ in range(workers)
        ]
        for process, core in zip(crew, sorted(os.sched_getaffinity(0)), strict=False):
            os.sched_setaffinity(process.pid, {core})
        try:
            yield running
        finally:
            for process in crew:
                process.kill()
                process.wait()
            running.end(signal.SIGKILL)
            server.remove()


_BARE = """
import json, os, sys, time
from service.jobs.child_process import SILENT, JobLimits
from service.jobs.child import solve_document
os.sched_setaffinity(0, {int(sys.argv[1])})
body = sys.stdin.buffer.read()
solve_document(body, JobLimits(60.0, 0), SILENT)
print("ready", flush=True)
begin = time.monotonic()
for _ in range(int(sys.argv[2])):
    solve_document(body, JobLimits(60.0, 0), SILENT)
print(time.monotonic() - begin, flush=True)
"""


def bare_seconds(name: str, processes: int, solves: int = 5) -> float:
    """How long bare processes take, each on a core of its own for so many solves [s]."""
    crew = []
    for core in sorted(os.sched_getaffinity(0))[:processes]:
        command = [sys.executable, "-c", _BARE, str(core), str(solves)]
        one = subprocess.Popen(command, cwd=ROOT, stdin=subprocess.PIPE, stdout=subprocess.PIPE)
        one.stdin.write(json.dumps(example(name)).encode())
        one.stdin.close()
        crew.append(one)
    told = [one.stdout.read().split() for one in crew]
    if any(one.wait() for one in crew):
        sys.exit("A bare process failed.")
    return max(float(seconds) for _, seconds in told)


def ask(running: RunningService, count: int, name: str) -> list[str]:
    """Ask for so many plans of an example, each with a title of its own."""
    plan_ids = []
    for number in range(count):
        body = {**example(name), "reference": f"{name}-{number}"}
        answer = CALLER.post(f"{running.url}/v1/plans", json=body, timeout=60)
        plan_ids.append(answer.raise_for_status().json()["plan_id"])
    return plan_ids


def seconds_for(running: RunningService, name: str, count: int = REQUESTS) -> float:
    """How long all take from the first post to the last end, once every worker is warm [s].

    Who watches takes from the cores that are measured, so it asks four times a second.
    """
    for plan_id in ask(running, 4, "smallest-request"):
        until(lambda one=plan_id: running.read(one)["state"] == "done", seconds=600)
    begin = time.monotonic()
    for plan_id in ask(running, count, name):
        until(lambda one=plan_id: running.read(one)["state"] == "done", seconds=3600, pause=0.25)
    return time.monotonic() - begin


def main() -> None:
    """Measure all; the exit status says whether two workers are fast enough, and one is not."""
    if programs() is None:
        sys.exit("PostgreSQL is not installed.")
    name = "independent-three" if "--long" in sys.argv[1:] else "smallest-request"
    print(f"{REQUESTS} requests, {name}; load average {os.getloadavg()[0]:.1f}", flush=True)
    with embedded() as running:
        on_a_file = seconds_for(running, name)
    print(f"embedded, one solve at a time: {on_a_file:.1f} s", flush=True)
    taken = {}
    for workers in (1, 2):
        with distributed(workers) as running:
            taken[workers] = seconds_for(running, name)
        print(f"distributed, {workers} workers: {taken[workers]:.1f} s", flush=True)
    with distributed(1) as running:
        again = seconds_for(running, name)
    bare = 2 * bare_seconds(name, 1) / bare_seconds(name, 2)
    print(f"two bare processes, no service: {bare:.2f} times as fast as one", flush=True)
    speed, control = taken[1] / taken[2], taken[1] / again
    each = 1000 * (taken[1] - on_a_file) / REQUESTS
    print(f"two workers are {speed:.2f} times as fast as one; promised {WANTED}")
    print(
        f"overhead of the distributed engine, its worker bound to one core: "
        f"{taken[1] / on_a_file - 1:+.1%}, {each:+.0f} ms a plan"
    )
    caught = control < WANTED
    print(f"planted fault, one worker passes for two: {'caught' if caught else 'NOT CAUGHT'}")
    sys.exit(speed < WANTED or not caught)


if __name__ == "__main__":
    main()
