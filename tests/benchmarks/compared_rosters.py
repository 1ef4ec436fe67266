"""Many rosters of an example in one comparison, against as many plans one by one.

    python -m tests.benchmarks.compared_rosters 20
    python -m tests.benchmarks.compared_rosters 4 30 guided-six

It starts the service, asks for each roster as a plan and waits for it before the next, as a caller
without comparisons does. Then it sends all of them as one comparison. It prints wall time and CPU
time of both ways, the load of the machine, and whether each roster has the same plan both ways.
"""

from __future__ import annotations

import json
import os
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from random import Random
from threading import Event, Thread
from typing import Any, Self

import httpx

from tests.service.processes import RunningService, free_port

EXAMPLES = Path(__file__).parents[2] / "examples"
Document = dict[str, Any]
_TICKS = os.sysconf("SC_CLK_TCK")
_SECONDS = 3600.0
"""The most that one way may take [s]."""


@dataclass(frozen=True)
class Way:
    """How long one way took and what the service used [s], and the peak of each roster."""

    wall_seconds: float
    cpu_seconds: float
    peaks: dict[str, float | None]


def comparison_of(base: Document, count: int) -> Document:
    """The comparison of a base with so many rosters."""
    return {"base": base, "people": people_of(base), "variants": variants_of(base, count)}


def people_of(base: Document) -> list[Document]:
    """Somebody who could come for each client, with the same kitchen and rope team."""
    return [
        person | {"person_id": f"instead-of-{person['person_id']}", "pack_cap": "23 kg"}
        for person in base["roster"]
        if not person.get("guide")
    ]


def variants_of(base: Document, count: int) -> list[Document]:
    """So many rosters: some with other caps, some with another client, each different."""
    chance = Random("rosters")
    people = [person["person_id"] for person in base["roster"]]
    clients = [person["person_id"] for person in base["roster"] if not person.get("guide")]
    made = []
    for number in range(count):
        edits: list[Document] = [
            {"edit": "cap", "person_id": person_id, "pack_cap": f"{chance.randint(40, 52) / 2} kg"}
            for person_id in chance.sample(people, 2)
        ]
        if number % 4 == 3:
            gone = chance.choice(clients)
            edits.append({"edit": "without", "person_id": gone})
            edits.append({"edit": "add", "person_id": f"instead-of-{gone}"})
        made.append({"name": f"roster {number}", "edits": edits})
    return made


class CpuOfTree:
    """CPU time of a process and of all below it, looked at several times a second.

    The kernel clears away the children of a fork server, so nobody has their times afterwards.
    """

    def __init__(self, process: int) -> None:
        self._process = process
        self._used: dict[int, float] = {}
        self._before: dict[int, float] = {}
        self._over = Event()
        self._thread = Thread(target=self._watch, daemon=True)

    def __enter__(self) -> Self:
        """Count from now."""
        self._before = _cpu_below(self._process)
        self._thread.start()
        return self

    def __exit__(self, *_: object) -> None:
        """Count no more."""
        self._over.set()
        self._thread.join()

    def seconds(self) -> float:
        """CPU time between beginning and end [s]."""
        return sum(used - self._before.get(one, 0.0) for one, used in self._used.items())

    def _watch(self) -> None:
        while True:
            self._used |= _cpu_below(self._process)
            if self._over.wait(0.2):
                return


def _cpu_below(process: int) -> dict[int, float]:
    """The CPU time of a process and of each below it [s]."""
    below: dict[int, list[int]] = {}
    used: dict[int, float] = {}
    for entry in Path("/proc").iterdir():
        if not entry.name.isdigit():
            continue
        try:
            fields = (entry / "stat").read_text(errors="replace").rpartition(")")[2].split()
        except OSError:
            continue
        below.setdefault(int(fields[1]), []).append(int(entry.name))
        used[int(entry.name)] = sum(map(int, fields[11:13])) / _TICKS
    waiting, found = [process], {}
    while waiting:
        here = waiting.pop()
        found[here] = used.get(here, 0.0)
        waiting += below.get(here, [])
    return found


def measured(service: RunningService, work: Callable[[], dict[str, float | None]]) -> Way:
    """One way, timed."""
    begun = time.perf_counter()
    with CpuOfTree(service.process.pid) as cpu:
        peaks = work()
    return Way(time.perf_counter() - begun, cpu.seconds(), peaks)


def compared(caller: httpx.Client, sent: Document) -> Document:
    """The comparison with all outcomes."""
    answer = caller.post("/v1/comparisons", json=sent).raise_for_status().json()
    until = time.monotonic() + _SECONDS
    while not answer["done"] and time.monotonic() < until:
        time.sleep(0.5)
        address = f"/v1/comparisons/{answer['comparison_id']}"
        answer = caller.get(address).raise_for_status().json()
    return dict(answer)


def one_by_one(caller: httpx.Client, documents: dict[str, Document]) -> dict[str, float | None]:
    """Each request as a plan of its own, the next one when the last is final."""
    peaks: dict[str, float | None] = {}
    for name, document in documents.items():
        headers = {"Prefer": "wait=60"}
        plan = caller.post("/v1/plans", json=document, headers=headers).raise_for_status().json()
        while plan["state"] in ("queued", "running"):
            time.sleep(0.2)
            plan = caller.get(f"/v1/plans/{plan['plan_id']}").raise_for_status().json()
        outcome = plan["outcome"]
        peaks[name] = outcome["peak"]["load_fraction"] if outcome.get("peak") else None
    return peaks


def peaks_of(answer: Document) -> dict[str, float | None]:
    """The peak of each row of a comparison."""
    return {row["name"]: row["figures"] and row["figures"]["peak"] for row in answer["rows"]}


def main(count: int, seconds: int = 60, example: str = "guided-twelve") -> int:
    """Measure both ways; 1 where a roster has another plan in company than alone."""
    base = json.loads((EXAMPLES / f"{example}.json").read_text(encoding="utf-8"))
    base["options"] = {"time_limit": f"{seconds} s"}
    sent = comparison_of(base, count)
    with tempfile.TemporaryDirectory() as folder:
        service = RunningService(
            environment={
                "HAULWRIGHT_PORT": str(free_port()),
                "HAULWRIGHT_DATABASE": f"{folder}/plans.sqlite3",
            },
            log=Path(folder) / "log",
            module="service",
        )
        service.start()
        try:
            with httpx.Client(base_url=service.url, timeout=90) as caller:
                print(f"{count} rosters of {example}; load {os.getloadavg()[0]:.1f}")
                together: list[Document] = []
                company = measured(
                    service,
                    lambda: peaks_of(_kept(together, compared(caller, sent))),
                )
                _say("one comparison", company)
                documents = _requests(caller, together[0])
                alone = measured(service, lambda: one_by_one(caller, documents))
                _say("one by one", alone)
        finally:
            service.process.kill()
            service.process.wait()
    other = [name for name in alone.peaks if alone.peaks[name] != company.peaks[name]]
    ratio = company.wall_seconds / alone.wall_seconds
    print(f"the comparison took {ratio:.0%} of the time; load {os.getloadavg()[0]:.1f}")
    print(f"rosters with another peak: {', '.join(other) or 'none'}")
    return 1 if other else 0


def _kept(kept: list[Document], answer: Document) -> Document:
    kept.append(answer)
    return answer


def _requests(caller: httpx.Client, answer: Document) -> dict[str, Document]:
    """The request of each different plan of a comparison, as it was stored."""
    return {
        row["name"]: caller.get(f"/v1/plans/{row['plan_id']}/request").raise_for_status().json()
        for row in answer["rows"]
    }


def _say(name: str, way: Way) -> None:
    plans = sum(peak is not None for peak in way.peaks.values())
    print(
        f"{name}: {way.wall_seconds:.1f} s, CPU {way.cpu_seconds:.1f} s, "
        f"{plans} of {len(way.peaks)} have a plan"
    )


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:3]), *sys.argv[3:]))
