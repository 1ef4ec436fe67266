"""A plan that is removed while a request about it is answered: before each of the reads it takes.

What was found a moment ago may be gone with the next read. The answer is then not_found, or what
was read before; never a fault of the service.
"""

import sqlite3
import threading

import pytest
from fastapi.testclient import TestClient
from sqlalchemy import event

from api_schema.examples import SMALLEST_REQUEST
from service.app import ROUTES, create_app
from service.routes.reports import EXAMPLE_REPORT
from service.settings import Settings
from service.translation import TRANSLATION
from service.wiring import DEFAULT_TENANT

WAIT = {"Prefer": "wait=50"}
SOLVES = "/v1/plans/{plan_id}/limits-that-bind"
READS = sorted(
    route.path
    for route in ROUTES
    if "GET" in route.methods and "{plan_id}" in route.path and not route.path.startswith(SOLVES)
)
MOST_READS = 12


class Losing:
    """A service with a solved plan, a report on it and a comparison of it; it can lose the plan."""

    def __init__(self, file, client: TestClient) -> None:
        self._file = file
        self.client = client
        variants = {"base": SMALLEST_REQUEST, "variants": [{"name": "same"}]}
        made = client.post("/v1/comparisons", json=variants, headers=WAIT)
        assert made.status_code == 201, made.text
        self.comparison_id = made.json()["comparison_id"]
        self.plan_id = made.json()["rows"][0]["plan_id"]
        self._reads = self._lose_before = 0
        pool = client.app.state.wiring.store._engine.pool
        event.listen(pool, "checkout", self._checked_out)
        self.report_id = self.report().json()["report_id"]

    def report(self):
        """A report on the plan."""
        return self.client.post(f"/v1/plans/{self.plan_id}/reports", json=EXAMPLE_REPORT)

    def _checked_out(self, *_) -> None:
        # Others read for themselves: the engine, the lookout.
        if threading.current_thread().name.startswith("AnyIO"):
            self._reads += 1
            if self._reads == self._lose_before:
                self._move("elsewhere")

    def _move(self, tenant_id: str) -> None:
        with sqlite3.connect(self._file, timeout=20) as connection:
            connection.execute("UPDATE plans SET tenant_id = ?", (tenant_id,))
        connection.close()

    def answers(self, ask) -> list[tuple[int, str | None]]:
        """Status and code where the plan goes before the first read, the second, and so on."""
        found = []
        for lose_before in range(1, MOST_READS + 1):
            self._reads, self._lose_before = 0, lose_before
            try:
                answer = ask()
            finally:
                self._lose_before = 0
                self._move(DEFAULT_TENANT)
            is_json = "json" in answer.headers.get("content-type", "")
            code = answer.json().get("code") if is_json else None
            found.append((answer.status_code, code))
            if self._reads < lose_before:
                break
        return found


@pytest.fixture(scope="module")
def losing(tmp_path_factory):
    """The service as it is run."""
    file = tmp_path_factory.mktemp("data") / "plans.sqlite3"
    app = create_app(Settings(database=file), TRANSLATION)
    with TestClient(app, raise_server_exceptions=False) as client:
        yield Losing(file, client)


@pytest.mark.parametrize("path", READS)
def test_a_plan_that_goes_between_two_reads_is_not_found(losing, path):
    """Before the first read it is not found, and later it is that or what was read."""
    address = path.format(plan_id=losing.plan_id, report_id=losing.report_id)
    query = {"to": losing.plan_id} if "/difference" in path else {}
    answers = losing.answers(lambda: losing.client.get(address, params=query))
    assert answers[0] == (404, "not_found")
    # The last answer is that where the plan did not go.
    kept = answers[-1]
    assert kept[0] < 500
    others = {one for one in answers if one != kept}
    assert others <= {(200, None), (204, None), (404, "not_found")}, answers


def test_a_report_on_a_plan_that_goes_is_not_found(losing):
    """Nor is it an error of the service where the line of the plan is gone."""
    answers = losing.answers(losing.report)
    assert {code for status, code in answers if status != 200} == {"not_found"}, answers
    assert len(answers) > 3


def test_a_comparison_says_that_a_plan_has_gone(losing):
    """It is found, though one of its plans goes while its figures are read."""
    address = f"/v1/comparisons/{losing.comparison_id}"

    def ask():
        losing.client.app.state.wiring.figures._kept.clear()
        return losing.client.get(address)

    answers = losing.answers(ask)
    assert {status for status, _ in answers} == {200}, answers
    assert len(answers) > 3
