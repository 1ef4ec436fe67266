"""What is tried on the API: one function for each promise, which says what was tried and lost."""

import asyncio
import itertools
import json
import os
import random
import time
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

import httpx

from api_schema.examples import SMALLEST_REQUEST
from service.storage.database import open_database
from service.storage.keys import KeyStore
from service.storage.trip_reports import TripReportStore
from tests.reliability.peak_memory import PeakMemory
from tests.reliability.planted_api import FAULT
from tests.service.full_bodies import full_bodies
from tests.service.one_night_out import REQUEST
from tests.service.processes import RunningService, free_port, parent_of
from tests.service.sweep_fields import Document, in_full, sweep
from tests.service.test_access import IDS, LIBRARY, OF_ONE
from tests.service.test_hostile_bodies import BODIES

MOST_SECONDS, MOST_MB = 2.0, 300
_TRIES = 5
"""Another program's work makes an answer slower, never quicker: the quickest of five counts."""
_MB = 1024
_CALLER = httpx.Client(timeout=120)
"""One for all bodies: to make one costs more than most of the answers."""


@dataclass
class Report:
    """What was tried, and everything that was lost or wrong."""

    tried: str = ""
    wrong: list[str] = field(default_factory=list)


class Service(RunningService):
    """The service as it is run, or with a fault planted."""

    @classmethod
    def begin(cls, folder: Path, planted: str | None = None, **settings: str) -> "Service":
        """One that answers, on a database in a folder."""
        environment = {
            "HAULWRIGHT_PORT": str(free_port()),
            "HAULWRIGHT_DATABASE": str(folder / "plans.sqlite3"),
            **settings,
        }
        if planted is not None:
            environment[FAULT] = planted
        module = "service" if planted is None else "tests.reliability.planted_api"
        service = cls(environment=environment, log=folder / "log", module=module)
        service.start()
        service.post("/v1/requirements", {})
        return service

    def post(self, path: str, body: object, **headers: str) -> httpx.Response:
        """The answer to a body; a service that is busy is asked again after the time it names."""
        for _ in range(5):
            answer = _CALLER.post(f"{self.url}{path}", json=body, headers=headers)
            if answer.status_code != 503 or answer.json()["code"] not in {"too_busy", "starting"}:
                break
            time.sleep(int(answer.headers["Retry-After"]))
        return answer

    def stop(self) -> None:
        """End it at once."""
        self.process.kill()
        self.process.wait()

    def resident_mb(self) -> float:
        """The memory of the service and all processes under it [MiB]."""
        below = {self.process.pid}
        processes = [int(one.name) for one in Path("/proc").iterdir() if one.name.isdigit()]
        for _ in range(4):
            below |= {one for one in processes if parent_of(one) in below}
        return sum(map(_resident_kb, below)) / _MB


def _resident_kb(process: int) -> int:
    try:
        status = Path(f"/proc/{process}/smaps_rollup").read_text(encoding="ascii")
    except OSError:
        return 0
    lines = (line.split() for line in status.splitlines() if line.startswith("Private_"))
    return sum(int(words[1]) for words in lines)


def same_key(folder: Path, *, planted: str | None = None, callers: int = 300) -> Report:
    """Many callers send one request with one key at once; all must get one plan."""
    service = Service.begin(folder, planted)
    headers = {"Idempotency-Key": "booking-1"}

    async def ask_all(count: int) -> list[httpx.Response]:
        limits = httpx.Limits(max_connections=count)
        async with httpx.AsyncClient(limits=limits, timeout=120) as caller:
            asked = (
                caller.post(f"{service.url}/v1/plans", json=SMALLEST_REQUEST, headers=headers)
                for _ in range(count)
            )
            return await asyncio.gather(*asked)

    try:
        answers = asyncio.run(ask_all(callers))
        seen = Counter(answer.status_code for answer in answers)
        rounds = 1
        while (busy := sum(one.status_code == 503 for one in answers)) and rounds < 60:
            # Who was told that the service is busy asks again, as a caller does.
            time.sleep(1)
            again = asyncio.run(ask_all(busy))
            answers = [one for one in answers if one.status_code != 503] + again
            rounds += 1
        listed = _CALLER.get(f"{service.url}/v1/plans?limit=100", timeout=60).json()["plans"]
    finally:
        service.stop()
    names = {one.json()["plan_id"] for one in answers if one.status_code < 300}
    report = Report(
        f"{callers} requests at once with one key: {dict(seen)} at first, all answered after "
        f"{rounds} rounds"
    )
    if len(names) != 1 or len(listed) != 1:
        report.wrong.append(f"{len(names)} plans named, {len(listed)} stored")
    statuses = {answer.status_code for answer in answers}
    if not statuses <= {201, 202}:
        report.wrong.append(f"statuses {sorted(statuses)}")
    return report


def hostile(
    folder: Path, *, planted: str | None = None, share: int = 1, outside: Path | None = None
) -> Report:
    """Bodies at the limits of the schema, each answered or refused in time and memory."""
    service = Service.begin(folder, planted)
    report = Report()
    slowest, most_mb, count, again = ("", 0.0), 0.0, 0, 0
    try:
        before = service.resident_mb()
        for name, path, body in _hostile_bodies(share, outside):
            count += 1
            with PeakMemory(service.resident_mb) as peak:
                status, seconds, tries = _asked(service, path, body)
            grown = peak.mb - before
            again += tries > 1
            slowest = max(slowest, (name, seconds), key=lambda one: one[1])
            most_mb = max(most_mb, grown)
            if status not in {200, 413, 422} or seconds > MOST_SECONDS or grown > MOST_MB:
                report.wrong.append(f"{name}: {status}, {seconds:.1f} s, {grown:.0f} MB")
    finally:
        service.stop()
    report.tried = (
        f"{count} bodies at the limits; slowest {slowest[1]:.2f} s ({slowest[0]}), {again} asked "
        f"again because they were slow, at most {most_mb:.0f} MB more memory"
    )
    return report


def _asked(service: Service, path: str, body: object) -> tuple[int, float, int]:
    """The status, the quickest of a few tries [s], and how many were needed."""
    quickest, tries = float("inf"), 0
    while tries < _TRIES:
        tries += 1
        answer = service.post(path, body)
        quickest = min(quickest, answer.elapsed.total_seconds())
        if answer.status_code >= 500 or quickest <= MOST_SECONDS:
            break
    return answer.status_code, quickest, tries


def _hostile_bodies(share: int, outside: Path | None) -> Iterator[tuple[str, str, object]]:
    for name, (path, body) in BODIES.items():
        yield name, path, body
    if outside is not None:
        for file in sorted((outside / "corpora" / "hostile").glob("*.json")):
            path = "/v1/plan-checks" if file.stem == "plan-check" else "/v1/requirements"
            yield file.name, path, json.loads(file.read_bytes())
    for name, body in itertools.islice(full_bodies(), 0, None, share):
        yield name, "/v1/requirements", body
        yield f"check of {name}", "/v1/plan-checks", {"request": body, "plan": {"trips": []}}


def boundaries(
    folder: Path, *, planted: str | None = None, most: int | None = None, solved: int = 3
) -> Report:
    """Every boundary and its neighbours in every field: no 5xx, and no accepted plan fails.

    Of what is taken of each request, so many are solved.
    """
    service = Service.begin(folder, planted)
    report = Report()
    chance = random.Random(3)
    bodies = [
        (f"{part} {name}", body)
        for part, asked in (("full", in_full()), ("one night", REQUEST))
        for name, body in sweep(asked)
    ]
    chosen = bodies if most is None else chance.sample(bodies, most)
    seen: Counter[int] = Counter()
    taken: dict[str, list[tuple[str, Document]]] = {"full": [], "one night": []}
    try:
        for name, body in chosen:
            status = service.post("/v1/requirements", body).status_code
            seen[status] += 1
            if status == 200:
                taken[name.partition(" /")[0]].append((name, body))
            elif status != 422:
                report.wrong.append(f"{name}: {status}")
        some = [one for part in taken.values() for one in chance.sample(part, len(part))[:solved]]
        ends = _ends(service, some, report)
    finally:
        service.stop()
    report.tried = f"{len(chosen)} values at boundaries: {dict(seen)}; solved: {dict(ends)}"
    return report


def _ends(service: Service, taken: Iterable[tuple[str, Document]], report: Report) -> Counter[str]:
    ends: Counter[str] = Counter()
    for name, body in taken:
        asked = {**body, "options": {**body.get("options", {}), "time_limit": "3 s"}}
        answer = service.post("/v1/plans", asked, Prefer="wait=60").json()
        kind = str(answer.get("outcome_kind") or answer.get("state") or answer["code"])
        ends[kind] += 1
        if kind not in {"solved", "infeasible", "no_plan_in_time", "invalid_request"}:
            report.wrong.append(f"{name}: accepted, then {kind}{why(answer)}")
    return ends


def why(answer: Document) -> str:
    """The code and words of a failure, and when the plan was begun and ended."""
    outcome = answer.get("outcome") or answer
    parts = [outcome.get(part) for part in ("code", "detail")]
    parts += [answer.get(part) for part in ("plan_id", "attempt", "started_at", "finished_at")]
    return "".join(f", {part}" for part in parts if part is not None)


def tenants(folder: Path, *, planted: str | None = None) -> Report:
    """Every address with an id, asked by another tenant: the 404 of what never was."""
    environment = {"HAULWRIGHT_KEYS": "required"}
    database = open_database(folder / "plans.sqlite3")
    keys = KeyStore(database)
    a, b = (
        {"Authorization": f"Bearer {keys.make(tenant_id=one, scopes=('read', 'plan'))}"}
        for one in "ab"
    )
    database.dispose()
    service = Service.begin(folder, planted, **environment)
    report = Report(f"{len(OF_ONE)} addresses with an id, asked by another tenant")
    try:
        ids = _ids_of(service, a, folder)
        for method, path, kind in OF_ONE:
            theirs, never = (
                _CALLER.request(
                    method, service.url + path.replace(kind, one), headers=b, timeout=60,
                    params={"to": "plan_" + "2" * 26} if "/difference" in path else {},
                )
                for one in (ids[kind], IDS[kind] + "1" * 26)
            )  # fmt: skip
            if theirs.status_code != 404 or theirs.content != never.content:
                report.wrong.append(f"{method} {path}: {theirs.status_code}")
        left = _CALLER.get(f"{service.url}/v1/plans/{ids['{plan_id}']}", headers=a, timeout=60)
        if left.status_code != 200:
            report.wrong.append("the plan of the first tenant is gone")
    finally:
        service.stop()
    return report


def _ids_of(service: Service, key: dict[str, str], folder: Path) -> dict[str, str]:
    """An id of each kind that the first tenant has."""
    headers = {**key, "Prefer": "wait=60"}
    plan_id = service.post("/v1/plans", SMALLEST_REQUEST, **headers).json()["plan_id"]
    compared = {"base": SMALLEST_REQUEST, "variants": [{"name": "same", "patch": {}}]}
    comparison = service.post("/v1/comparisons", compared, **key).json()
    tested = service.post(f"/v1/plans/{plan_id}/stress-tests", {"seconds": 5}, **key).json()
    for kind, entry in LIBRARY.items():
        address = f"{service.url}/v1/library/{kind}/entry_of_a"
        _CALLER.put(address, json=entry, headers=key, timeout=60).raise_for_status()
    database = open_database(folder / "plans.sqlite3")
    kept = TripReportStore(database).keep(tenant_id="a", plan_id=plan_id, sent=b"{}", report=b"{}")
    database.dispose()
    return {
        "{plan_id}": plan_id,
        "{comparison_id}": comparison["comparison_id"],
        "{stress_test_id}": tested["stress_test_id"],
        "{entry_id}": "entry_of_a",
        "{report_id}": kept.report_id,
    }


def outside_data() -> Path | None:
    """The folder of outside data, if there is one."""
    named = os.environ.get("HAULWRIGHT_OUTSIDE_DATA")
    return Path(named) if named else None
