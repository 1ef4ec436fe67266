"""A service under trial: asked, killed and frozen, and at the end every plan is accounted for."""

import contextlib
import os
import random
import signal
import sqlite3
import subprocess
import sys
import threading
import time
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path

import httpx

from tests.service.processes import CALLER, RunningService, free_port, solving_under

ROOT = Path(__file__).parents[2]
FINAL = ("done", "failed", "cancelled")
LEASE_SECONDS = 6


@dataclass
class Tally:
    """What was tried and what came of it; `doubled` counts plans that became final twice.

    `misled` counts requests during an outage that were not refused with 503 and Retry-After. A
    proof needs at least `least` kills, or freezes after which another took over.
    """

    kills: int = 0
    accepted: int = 0
    lost: int = 0
    doubled: int = 0
    failed: int = 0
    stuck: int = 0
    misled: int = 0
    least: int = 1

    def is_clean(self) -> bool:
        """Whether nothing went wrong."""
        return not (self.lost or self.doubled or self.failed or self.stuck or self.misled)

    def proves(self) -> bool:
        """Whether nothing went wrong although plans were accepted and something was done to them.

        A service that nobody could reach loses nothing, and proves nothing.
        """
        return self.is_clean() and self.accepted > 0 and self.kills >= self.least

    def __str__(self) -> str:
        """One line."""
        return (
            f"{self.accepted} plans accepted, {self.kills} kills or freezes: {self.lost} lost, "
            f"{self.doubled} doubled, {self.failed} failed, {self.stuck} not finished"
            + (f", {self.misled} misled" if self.misled else "")
            + (f", wanted {self.least}" if self.kills < self.least else "")
        )


@dataclass
class Trial:
    """A service on a database in a folder; `planted` names a fault of tests.reliability.planted."""

    folder: Path
    planted: str | None = None
    chance: random.Random = field(default_factory=lambda: random.Random(7))
    plan_ids: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        """Choose a port."""
        self.environment = {
            **os.environ,
            "HAULWRIGHT_PORT": str(free_port()),
            "HAULWRIGHT_DATABASE": str(self.folder / "plans.sqlite3"),
            "HAULWRIGHT_SOLVE_MEMORY_MB": "400",
            "HAULWRIGHT_LEASE_SECONDS": str(LEASE_SECONDS),
            "HAULWRIGHT_QUEUE_LIMIT": "5000",
        }
        self.url = f"http://127.0.0.1:{self.environment['HAULWRIGHT_PORT']}"
        self.process: subprocess.Popen | None = None

    def start(self) -> None:
        """Start the service, without waiting for it."""
        module = (
            ["tests.service.serve"]
            if self.planted is None
            else [
                "tests.reliability.planted",
                self.planted,
            ]
        )
        with (self.folder / "log").open("ab") as log:
            self.process = subprocess.Popen(
                [sys.executable, "-m", *module],
                env=self.environment,
                cwd=ROOT,
                stdout=log,
                stderr=log,
            )

    def kill(self) -> None:
        """Kill the service, and wait until it is gone."""
        self.process.kill()
        self.process.wait()

    def await_ready(self, *, seconds: float = 400) -> float:
        """Wait until it takes requests; gives the time that it took [s]."""
        begin = time.monotonic()
        while time.monotonic() - begin < seconds:
            with contextlib.suppress(httpx.TransportError):
                if CALLER.get(f"{self.url}/readyz", timeout=5).status_code == 200:
                    return time.monotonic() - begin
            time.sleep(0.05)
        raise TimeoutError((self.folder / "log").read_text()[-2000:])

    def ask(self, seconds: float) -> bool:
        """Ask for a plan whose solve takes so long [s]; whether it was accepted."""
        body = {"order": "sleep", "seconds": seconds, "solve_seconds": 30}
        with contextlib.suppress(httpx.TransportError):
            answer = CALLER.post(f"{self.url}/v1/plans", json=body, timeout=15)
            if answer.status_code == 202:
                self.plan_ids.append(answer.json()["plan_id"])
                return True
        return False

    def is_refused(self) -> bool:
        """Whether a request is refused with 503 and a time to come again."""
        body = {"order": "sleep", "seconds": 0.1, "solve_seconds": 30}
        answer = CALLER.post(f"{self.url}/v1/plans", json=body, timeout=30)
        return answer.status_code == 503 and "retry-after" in answer.headers

    def ask_on(self, stop: threading.Event, seconds: float) -> None:
        """Go on asking, with a pause between plans, until told to stop."""
        while not stop.wait(self.chance.uniform(0.5, 2.0)):
            self.ask(self.chance.uniform(0.1, seconds))

    def account(self, *, kills: int, seconds: float) -> Tally:
        """Wait so long for every accepted plan to be final, and count [s]."""
        tally = Tally(kills=kills, accepted=len(self.plan_ids))
        ends_at = time.monotonic() + seconds
        open_ids = set(self.plan_ids)
        states: dict[str, str] = {}
        while open_ids and time.monotonic() < ends_at:
            for plan_id in sorted(open_ids):
                try:
                    answer = CALLER.get(f"{self.url}/v1/plans/{plan_id}", timeout=15)
                except httpx.TransportError:
                    break
                if answer.status_code == 503:
                    break
                states[plan_id] = answer.json().get("state", "lost")
                if states[plan_id] in (*FINAL, "lost"):
                    open_ids.discard(plan_id)
            time.sleep(0.2)
        counted = Counter(states.values())
        tally.lost, tally.failed, tally.stuck = counted["lost"], counted["failed"], len(open_ids)
        tally.doubled = self._doubled()
        return tally

    def _doubled(self) -> int:
        """Plans that became final more than once, and plans that nobody asked for."""
        return self.count(
            "SELECT count(*) FROM (SELECT plan_id FROM plan_events WHERE kind IN "
            "('done', 'failed', 'cancelled') GROUP BY plan_id HAVING count(*) > 1) AS twice"
        )

    def count(self, query: str) -> int:
        """The one number that a query gives."""
        database = sqlite3.connect(self.folder / "plans.sqlite3")
        (number,) = database.execute(query).fetchone()
        database.close()
        return number

    def states(self, plan_ids: list[str]) -> set[str]:
        """The states of these plans."""
        answers = (CALLER.get(f"{self.url}/v1/plans/{one}", timeout=15) for one in plan_ids)
        return {answer.json()["state"] for answer in answers}

    def starts(self, plan_ids: list[str]) -> int:
        """How often the solves of these plans were started, all together."""
        names = ", ".join(f"'{one}'" for one in plan_ids)
        return self.count(
            f"SELECT count(*) FROM plan_events WHERE kind = 'running' AND plan_id IN ({names})"  # noqa: S608 - names of ours
        )

    def most_crashes(self) -> int:
        """How often a child of a running plan has died already, at most."""
        return self.count("SELECT coalesce(max(crashes), 0) FROM plans WHERE state = 'running'")

    def open(self) -> int:
        """How many plans wait or run."""
        return self.count("SELECT count(*) FROM plans WHERE state IN ('queued', 'running')")

    def children(self) -> list[int]:
        """The processes that solve."""
        return solving_under(self.process.pid)

    def freeze(self, seconds: float) -> None:
        """Stop the service with a signal, and let it go on after so long [s]."""
        os.kill(self.process.pid, signal.SIGSTOP)
        time.sleep(seconds)
        os.kill(self.process.pid, signal.SIGCONT)


def second_service(trial: Trial) -> RunningService:
    """Another process on the database of a trial, with the same fault, started and healthy."""
    other = RunningService(
        environment={
            **trial.environment,
            "HAULWRIGHT_PORT": str(free_port()),
            "PLANTED_FAULT": trial.planted or "",
        },
        log=trial.folder / "other.log",
        module="tests.reliability.planted" if trial.planted else "tests.service.serve",
    )
    other.start()
    return other
