"""Solves end when they must: `bash tests/reliability/run.sh limits [--long]`, with the real solver.

A running solve is cancelled within a second, at whatever stage it is. Random solves and hard ones
end within their limit plus two seconds. The controls are a service that hears of a cancel late, and
one that stands still, so that nobody watches the clock.
"""

import json
import os
import random
import signal
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path

from tests.reliability.load import example, grown, service
from tests.service.processes import CALLER, RunningService, until

CANCEL_SECONDS = 1.0
GRACE_SECONDS = 2.0
_EXAMPLES = ("smallest-request", "independent-three", "guided-six", "guided-seven", "guided-twelve")
_FINAL = ("done", "failed", "cancelled")


def random_request(chance: random.Random) -> dict:
    """An example that lost some gear, with another cap for everybody and a limit of 1 to 4 s.

    Whether it can be solved does not matter, only when its work ends.
    """
    document = example(chance.choice(_EXAMPLES))
    document["gear"] = [
        piece for piece in document.get("gear", []) if "purpose" in piece or chance.random() < 0.9
    ]
    cap = chance.choice((18, 22, 25, 30))
    for person in document["roster"]:
        if "pack_cap" in person:
            person["pack_cap"] = f"{cap} kg"
    limit = round(chance.uniform(1, 4), 1)
    document["options"] = {"time_limit": f"{limit} s", "seed": chance.randrange(1000)}
    return document


def hard_requests() -> Iterator[dict]:
    """Ten requests that no limit of some seconds is enough for."""
    for number in range(10):
        name = ("guided-twelve", "guided-seven")[number % 2]
        document = json.loads(grown(name, 50_000 + 10_000 * number))
        document["options"] = {"time_limit": f"{2 + number % 4} s", "seed": number}
        yield document


def ask(running: RunningService, document: dict) -> str | None:
    """The name of a plan, None where the request was refused before any solve."""
    answer = CALLER.post(f"{running.url}/v1/plans", json=document, timeout=60)
    return answer.json()["plan_id"] if answer.status_code == 202 else None


def solve_seconds(plan: dict) -> float:
    """From the start of a plan's last attempt to its end [s]."""
    begin, end = (datetime.fromisoformat(plan[name]) for name in ("started_at", "finished_at"))
    return (end - begin).total_seconds()


def overtimes(running: RunningService, documents: list[dict]) -> list[float]:
    """How long after its limit each accepted solve ended; below zero: before it [s]."""
    limits = {}
    for document in documents:
        plan_id = ask(running, document)
        if plan_id is not None:
            limits[plan_id] = float(document["options"]["time_limit"].split()[0])
    over = []
    for plan_id, limit in limits.items():
        until(lambda one=plan_id: running.read(one)["state"] in _FINAL, seconds=3600)
        over.append(solve_seconds(running.read(plan_id)) - limit)
    return over


def cancel_times(running: RunningService, pauses: list[float]) -> list[float]:
    """How long a cancel takes, sent so long after the start of a large solve [s]."""
    taken = []
    for pause in pauses:
        plan_id = ask(running, {**example("guided-twelve"), "options": {"time_limit": "120 s"}})
        until(lambda one=plan_id: running.read(one)["state"] == "running", seconds=120)
        time.sleep(pause)
        if running.read(plan_id)["state"] in _FINAL:
            continue
        begin = time.monotonic()
        CALLER.post(f"{running.url}/v1/plans/{plan_id}/cancel", timeout=30)
        until(lambda one=plan_id: running.read(one)["state"] in _FINAL, seconds=60)
        taken.append(time.monotonic() - begin)
    return taken


@contextmanager
def served(**environment: str) -> Iterator[RunningService]:
    """A service with the real solver, ended with the context."""
    with tempfile.TemporaryDirectory() as folder:
        running = service(Path(folder), **environment)
        try:
            yield running
        finally:
            running.end(signal.SIGKILL)


def main() -> None:
    """Try both promises; the exit status says whether they were kept and the control was caught."""
    chance = random.Random(13)
    is_long = "--long" in sys.argv[1:]
    print(f"load average: {os.getloadavg()[0]:.1f}", flush=True)
    with served() as running:
        pauses = [chance.uniform(0, 25) for _ in range(20 if is_long else 6)]
        taken = cancel_times(running, [0.0, *pauses])
        cancels_well = max(taken) <= CANCEL_SECONDS
        print(f"{len(taken)} cancels at any stage: longest {max(taken):.2f} s", flush=True)
        documents = [random_request(chance) for _ in range(200 if is_long else 20)]
        random_over = overtimes(running, documents)
        hard_over = overtimes(running, list(hard_requests())[: 10 if is_long else 2])
    for name, over in (("random", random_over), ("hard", hard_over)):
        print(f"{len(over)} {name} solves: at most {max(over):.2f} s over their limit", flush=True)
    ends_well = max(random_over + hard_over) <= GRACE_SECONDS
    with served(HAULWRIGHT_LEASE_SECONDS="60") as running:
        # The child is stopped by a signal, and nobody hears a wish while the service stands still.
        plan_id = ask(running, {**example("guided-twelve"), "options": {"time_limit": "3 s"}})
        until(lambda: running.read(plan_id)["state"] == "running", seconds=120)
        os.kill(running.process.pid, signal.SIGSTOP)
        time.sleep(3 + 4 * GRACE_SECONDS)
        os.kill(running.process.pid, signal.SIGCONT)
        until(lambda: running.read(plan_id)["state"] in _FINAL, seconds=60)
        is_caught = solve_seconds(running.read(plan_id)) > 3 + GRACE_SECONDS
    print(f"planted fault, nobody watches the clock: {'caught' if is_caught else 'NOT CAUGHT'}")
    module = "tests.reliability.planted_api"
    with served(module=module, PLANTED_FAULT="hears_late") as running:
        late = cancel_times(running, [0.0])
    is_late = max(late) > CANCEL_SECONDS
    print(f"planted fault hears_late, {max(late):.1f} s: {'caught' if is_late else 'NOT CAUGHT'}")
    print(f"promises kept: cancels {cancels_well}, ends {ends_well}")
    sys.exit(not (cancels_well and ends_well and is_caught and is_late))


if __name__ == "__main__":
    main()
