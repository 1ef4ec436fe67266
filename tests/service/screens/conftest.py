"""A service with plans in every state, and a browser that looks at it."""

import json
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

import httpx
import pytest

from api_schema.examples import SMALLEST_REQUEST
from service.jobs.child import solve_document
from service.jobs.child_process import JobLimits, Talk
from tests.service.one_night_out import REQUEST
from tests.service.processes import CALLER, RunningService, free_port
from tests.service.reports.test_comparisons import OUTCOME

LIMITS = JobLimits(wall_seconds=50, memory_bytes=2**31)
AT_ONCE = Talk(tell=lambda _: None, should_finish=lambda: True)
"""For the first plan that is found, which is enough to look at."""
TRIP = {**SMALLEST_REQUEST, "title": "A trip"}
CAUSE = {
    "message": "lead carries 29.0 kg on day 2, 2.0 kg over the cap",
    "rule_id": "pack_cap_held",
    "more": [],
    "remedies": [{"text": "Raise the cap by 2.0 kg.", "is_decision": False}],
}
NO_PLAN = {"outcome": "infeasible", "conflicts": [CAUSE], "reference": None, "title": None}


@dataclass(frozen=True)
class Site:
    """Where the service answers, and the addresses of its pages."""

    url: str
    pages: dict[str, str]

    def ask(self, **members) -> str:
        """The address of a plan just asked for, whose solve obeys the members."""
        answer = CALLER.post(f"{self.url}/v1/plans", json=REQUEST | members, timeout=30)
        return f"{self.url}/v1/plans/{answer.json()['plan_id']}"


@pytest.fixture(scope="session")
def site(tmp_path_factory) -> Iterator[Site]:
    """The service with a solved plan, a plan that cannot be, a comparison and the lists."""
    folder = tmp_path_factory.mktemp("site")
    outcome = json.loads(solve_document(json.dumps(TRIP).encode(), LIMITS, AT_ONCE))
    assert outcome["outcome"] == "solved"
    environment = {
        "HAULWRIGHT_PORT": str(free_port()),
        "HAULWRIGHT_DATABASE": str(folder / "plans.sqlite3"),
    }
    service = RunningService(environment, folder / "log")
    try:
        service.start()
        made = Site(service.url, {})
        with httpx.Client(base_url=service.url, headers={"Prefer": "wait=20"}, timeout=40) as ask:
            plan = ask.post("/v1/plans", json={**TRIP, "order": "given", "given": outcome}).json()
            none = ask.post("/v1/plans", json=REQUEST | {"order": "given", "given": NO_PLAN}).json()
            variants = [{"name": "a sled less", "patch": {"reference": "b"}}]
            base = REQUEST | {"order": "given", "given": OUTCOME}
            compared = ask.post("/v1/comparisons", json={"base": base, "variants": variants}).json()
        at = f"{service.url}/v1/plans/{plan['plan_id']}"
        _as_if_really_asked(folder / "plans.sqlite3", plan["plan_id"])
        made.pages.update(
            solved=at,
            infeasible=f"{service.url}/v1/plans/{none['plan_id']}",
            list=f"{service.url}/v1/plans",
            comparison=f"{service.url}/v1/comparisons/{compared['comparison_id']}",
            refusal=f"{service.url}/v1/plans/plan_{'0' * 26}",
            sheets=f"{at}/pages",
            difference=f"{at}/difference?to={none['plan_id']}&format=html",
        )
        yield made
    finally:
        service.process.terminate()
        service.process.wait(timeout=20)


def _as_if_really_asked(database: Path, plan_id: str) -> None:
    """Store the trip as the request of a plan, without what the obedient solver was asked."""
    with closing(sqlite3.connect(database)) as connection:
        connection.execute(
            "UPDATE plans SET request_document = ? WHERE plan_id = ?",
            (json.dumps(TRIP).encode(), plan_id),
        )
        connection.commit()
