"""Load on a service with its real solver: `bash tests/reliability/run.sh load [--long]`.

It prints what was tried, what was measured, and what was lost. Times are judged against the
promises of a machine with two cores that does nothing else. A fault is planted and must be caught.

The file is long because each load is a step of one measurement on one service.
"""

import asyncio
import json
import os
import signal
import sqlite3
import sys
import tempfile
import time
from collections.abc import Callable, Coroutine
from dataclasses import dataclass, field
from pathlib import Path

from tests.reliability.fair import QUIET_A_SECOND, beside_flood, is_let_in
from tests.reliability.left_alone import two_solves_beside
from tests.reliability.open_loop import Caller, Heard, Request
from tests.service.processes import CALLER, RunningService, free_port, until

ROOT = Path(__file__).parents[2]
_START_SECONDS = 300
_RECOVERY_SECONDS = 5.0
_LARGEST = "guided-twelve"
_SOLVED = "guided-six"


def example(name: str) -> dict:
    """A request of the examples."""
    return json.loads((ROOT / "examples" / f"{name}.json").read_text(encoding="utf-8"))


def grown(name: str, size: int) -> bytes:
    """A request of the examples with more pieces of gear, until it has so many bytes."""
    document = example(name)
    piece = {
        "name": "spare buckle", "mass": "30 g", "volume": "0.05 L", "count": 1,
        "needed": "every_night",
    }  # fmt: skip
    number = 0
    while len(body := json.dumps(document).encode()) < size:
        number += 1
        note = f"{piece['name']} {number} of a box that the party has carried on many journeys"
        document["gear"].append({**piece, "item_id": f"spare-{number}", "name": note[:60]})
    return body


@dataclass
class Report:
    """Lines printed, and whether all promises were kept."""

    missed: list[str] = field(default_factory=list)
    accepted: int = 0

    def say(self, name: str, heard: Heard, *, most_ms: float | None = None) -> float:
        """Print what came of one load; gives its p99 over those accepted [ms]."""
        status = 202 if 202 in heard.latencies else 200
        p99 = heard.ms(0.99, status)
        self.accepted += heard.counts().get(202, 0)
        wanted = f", promised {most_ms:.0f}" if most_ms else ""
        print(
            f"{name}: answers {heard.counts()}, median {heard.ms(0.5, status):.0f} ms, "
            f"p99 {p99:.0f} ms{wanted}, longest {heard.ms(1, status):.0f} ms",
            flush=True,
        )
        if most_ms and not p99 <= most_ms:
            self.miss(f"{name}: p99")
        strange = set(heard.latencies) - {200, 202, 503}
        if strange or heard.without_retry:
            self.miss(f"{name}: answers {strange}, {heard.without_retry} without Retry-After")
        return p99

    def need_all(self, name: str, heard: Heard) -> None:
        """Note a load of which not everything was accepted: what is refused is never late."""
        counts = heard.counts()
        accepted = counts.get(202, 0)
        if accepted == 0 or accepted < sum(counts.values()):
            self.miss(f"{name}: {accepted} of {sum(counts.values())} accepted")

    def miss(self, what: str) -> None:
        """Note a promise that was not kept."""
        self.missed.append(what)
        print(f"MISSED: {what}", flush=True)


@dataclass(frozen=True)
class Shape:
    """How much is tried: times of each load [s], and of the flood."""

    steady: float = 60.0
    flood: float = 10.0
    slow_connections: int = 400


SHORT = Shape(steady=10.0, flood=4.0)


def service(folder: Path, module: str = "service", **environment: str) -> RunningService:
    """A service on a fresh database, started and ready."""
    running = RunningService(
        environment={
            "HAULWRIGHT_PORT": str(free_port()),
            "HAULWRIGHT_DATABASE": str(folder / "plans.sqlite3"),
            "HAULWRIGHT_QUEUE_LIMIT": "20000",
            **environment,
        },
        log=folder / "log",
        module=module,
    )
    try:
        running.start(seconds=_START_SECONDS)
        until(
            lambda: CALLER.get(f"{running.url}/readyz", timeout=30).status_code == 200,
            seconds=_START_SECONDS,
        )
    except BaseException:
        running.process.kill()
        running.process.wait()
        raise
    return running


def two_solves(running: RunningService) -> None:
    """Have two plans run that take as long as they may."""
    for _ in range(2):
        body = {**example(_LARGEST), "options": {"time_limit": "300 s"}}
        CALLER.post(f"{running.url}/v1/plans", json=body, timeout=60).raise_for_status()
    until(
        lambda: len(CALLER.get(f"{running.url}/v1/plans?state=running").json()["plans"]) == 2,
        seconds=_START_SECONDS,
    )


async def steady(caller: Caller, report: Report, shape: Shape) -> float:
    """The two loads that are promised; gives the usual p99 of the smaller requests [ms]."""
    small = Request("POST", "/v1/plans", grown("independent-three", 25_000))
    large = Request("POST", "/v1/plans", grown("guided-twelve", 110_000))
    await caller.flood(small, a_second=10, seconds=2)
    heard = await caller.flood(small, a_second=60, seconds=shape.steady)
    usual = report.say("25 kB at 60 a second", heard, most_ms=50)
    report.need_all("25 kB at 60 a second", heard)
    heard = await caller.flood(large, a_second=20, seconds=shape.steady)
    report.say("110 kB at 20 a second", heard, most_ms=200)
    report.need_all("110 kB at 20 a second", heard)
    return usual


async def overload(caller: Caller, report: Report, shape: Shape, usual_ms: float) -> None:
    """Five times what the service can take, and how soon it is well again."""
    small = Request("POST", "/v1/plans", grown("independent-three", 25_000))
    most = await caller.most_a_second(small, callers=8, seconds=shape.flood)
    print(f"8 callers at once are served {most:.0f} a second", flush=True)
    report.accepted += int(most * shape.flood)
    heard = await caller.flood(small, a_second=5 * max(most, 1), seconds=shape.flood)
    report.say(f"{5 * most:.0f} a second", heard, most_ms=3 * usual_ms)
    await well_again(caller, report, small, usual_ms)
    loud, quiet = await beside_flood(
        caller.port, small, a_second=5 * max(most, 1), seconds=shape.flood
    )
    report.say(f"{5 * most:.0f} a second again", loud)
    report.say(f"{QUIET_A_SECOND:.0f} a second of another caller beside them", quiet)
    if not is_let_in(quiet):
        report.miss("another caller beside a flood")


async def well_again(caller: Caller, report: Report, small: Request, usual_ms: float) -> None:
    """See how soon after a flood all is as it was."""
    begin = time.monotonic()
    while time.monotonic() - begin < 60:
        heard = await caller.flood(small, a_second=20, seconds=0.5)
        report.accepted += heard.counts().get(202, 0)
        if heard.counts().keys() == {202} and heard.ms(0.99) <= 2 * usual_ms:
            break
    taken = time.monotonic() - begin
    print(f"well again after {taken:.1f} s", flush=True)
    if taken > _RECOVERY_SECONDS:
        report.miss("recovery")


async def slow_connections(caller: Caller, report: Report, shape: Shape) -> None:
    """Many connections that send next to nothing, beside others that are in order."""
    stop = asyncio.Event()
    crawling = asyncio.create_task(caller.crawl(shape.slow_connections, stop))
    await asyncio.sleep(2)
    small = Request("POST", "/v1/plans", grown("independent-three", 25_000))
    heard = await caller.flood(small, a_second=20, seconds=shape.steady / 2)
    stop.set()
    refused = await crawling
    report.say(f"20 a second beside {shape.slow_connections} slow connections", heard)
    print(f"{refused} of the slow connections were refused", flush=True)
    report.need_all("requests beside slow connections", heard)


async def health_beside_check(caller: Caller, report: Report, body: bytes, seconds: float) -> None:
    """Health, asked fifty times a second while plans are checked, ten at once."""
    check = Request("POST", "/v1/plan-checks", body)
    stop = asyncio.Event()
    checked = Heard()

    async def check_on() -> None:
        while not stop.is_set():
            await caller.send(check, time.monotonic(), checked)

    checking = [asyncio.create_task(check_on()) for _ in range(10)]
    await asyncio.sleep(0.5)
    health = await caller.flood(Request("GET", "/healthz"), a_second=50, seconds=seconds)
    stop.set()
    await asyncio.gather(*checking)
    report.say("/healthz beside checks of the largest plan", health, most_ms=50)
    report.say("the checks", checked)
    if 200 not in checked.counts():
        report.miss("no check was answered")


def largest_check(running: RunningService) -> bytes:
    """The body of a check of the largest example's plan."""
    request = {**example(_LARGEST), "options": {"time_limit": "60 s"}}
    answer = CALLER.post(
        f"{running.url}/v1/plans", json=request, headers={"Prefer": "wait=60"}, timeout=300
    ).json()
    until(lambda: running.read(answer["plan_id"])["state"] == "done", seconds=300)
    plan = running.read(answer["plan_id"])["outcome"]["plan"]
    return json.dumps({"request": request, "plan": plan}).encode()


def stored(running: RunningService) -> int:
    """The plans in the database."""
    database = sqlite3.connect(running.environment["HAULWRIGHT_DATABASE"])
    (count,) = database.execute("SELECT count(*) FROM plans").fetchone()
    database.close()
    return count


def lost(running: RunningService, report: Report, others: int) -> int:
    """How many plans were accepted and are not stored."""
    return max(0, report.accepted + others - stored(running))


async def all_loads(running: RunningService, report: Report, shape: Shape) -> None:
    """Every load in turn, on a service in which two plans run."""
    caller = Caller(int(running.environment["HAULWRIGHT_PORT"]))
    usual = await steady(caller, report, shape)
    await slow_connections(caller, report, shape)
    await overload(caller, report, shape, usual)
    await caller.close()


def left_alone(report: Report) -> None:
    """Two solves beside a full queue and a flood take at most twice as long, for the same peak."""
    alone = two_solves_beside(example(_SOLVED), None)
    beside = two_solves_beside(example(_SOLVED), grown("independent-three", 25_000))
    counts = {} if beside.heard is None else beside.heard.counts()
    print(
        f"two solves: {alone.seconds:.1f} s alone; {beside.seconds:.1f} s beside 2,400 queued "
        f"plans and 300 posts a second, answered {counts}",
        flush=True,
    )
    if beside.seconds > 2 * alone.seconds or beside.peaks != alone.peaks:
        report.miss("solves beside a flood")


async def control(running: RunningService, report: Report) -> None:
    """A load whose promise a service that stands still now and then must miss."""
    caller = Caller(int(running.environment["HAULWRIGHT_PORT"]))
    small = Request("POST", "/v1/plans", grown("independent-three", 25_000))
    await caller.flood(small, a_second=10, seconds=1)
    heard = await caller.flood(small, a_second=20, seconds=6)
    report.say("20 a second while the loop stands still now and then", heard, most_ms=50)
    await caller.close()


async def unfair(running: RunningService, report: Report) -> None:
    """A promise that a service must miss that does not tell callers apart."""
    small = Request("POST", "/v1/plans", grown("independent-three", 25_000))
    port = int(running.environment["HAULWRIGHT_PORT"])
    _, quiet = await beside_flood(port, small, a_second=400, seconds=3)
    report.say("10 a second of another caller beside 400 a second", quiet)
    if not is_let_in(quiet):
        report.miss("another caller beside a flood")


Trial = Callable[[RunningService, Report], Coroutine[None, None, None]]


def planted(fault: str, trial: Trial) -> bool:
    """Whether a trial catches a planted fault."""
    spoilt = Report()
    with tempfile.TemporaryDirectory() as folder:
        running = service(Path(folder), "tests.reliability.planted", PLANTED_FAULT=fault)
        try:
            asyncio.run(trial(running, spoilt))
        finally:
            running.end(signal.SIGKILL)
    print(f"planted fault {fault}: {'caught' if spoilt.missed else 'NOT CAUGHT'}", flush=True)
    return bool(spoilt.missed)


def main() -> None:
    """Try every load; the exit status says whether all promises were kept."""
    shape = Shape() if "--long" in sys.argv[1:] else SHORT
    report = Report()
    print(f"load average before: {os.getloadavg()[0]:.1f}", flush=True)
    with tempfile.TemporaryDirectory() as folder:
        running = service(Path(folder))
        try:
            body = largest_check(running)
            caller = Caller(int(running.environment["HAULWRIGHT_PORT"]))
            asyncio.run(health_beside_check(caller, report, body, shape.steady / 2))
            two_solves(running)
            asyncio.run(all_loads(running, report, shape))
            gone = lost(running, report, 3)
            print(f"{report.accepted} accepted, {gone} lost", flush=True)
            if gone:
                report.miss("plans were lost")
        finally:
            running.end(signal.SIGKILL)
    left_alone(report)
    caught = all([planted("stands_still", control), planted("one_line", unfair)])
    print(f"load average after: {os.getloadavg()[0]:.1f}")
    print(f"promises missed: {'; '.join(report.missed) or 'none'}")
    sys.exit(bool(report.missed) or not caught)


if __name__ == "__main__":
    main()
