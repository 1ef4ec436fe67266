"""Each route has its place, and stored plans become answers that keep to their models."""

import datetime as dt
import gzip
import json

import pytest

from api_schema.operation import HealthAnswer
from api_schema.plan_resource import PlanResourceAnswer
from api_schema.reference import LimitsAnswer, UnitsAnswer
from service.app import ROUTERS, ROUTES
from service.jobs.desks import DesksInline
from service.reports.tables import Table
from service.routes import (
    comparisons,
    facts,
    files,
    one_plan,
    operation,
    plan_checks,
    plan_differences,
    plan_files,
    plan_pages,
    plan_papers,
    plan_views,
    plans,
    requirements,
    view_formats,
)
from service.routes.plan_documents import STORED_AS_WRITTEN, plan_text, summary_answer
from service.storage.plans import PlanSummary, StoredPlan
from service.version import VERSION

PLAN_ID = "plan_" + "0" * 26
QUEUED = PlanSummary(PLAN_ID, "booking 1", "queued", None, 1_234, None, None, 0)


@pytest.mark.parametrize(
    ("module", "path"),
    [
        (facts, "/v1/units"),
        (files, "/v1/files/roster"),
        (operation, "/healthz"),
        (plan_checks, "/v1/plan-checks"),
        (plan_files, "/v1/plans/{plan_id}/workbook"),
        (plan_pages, "/v1/plans/{plan_id}/pages"),
        (comparisons, "/v1/comparisons/{comparison_id}"),
        (plan_differences, "/v1/plans/{plan_id}/difference"),
        (plan_papers, "/v1/plans/{plan_id}/load-sheet"),
        (plan_views, "/v1/plans/{plan_id}/loads"),
        (plans, "/v1/plans"),
        (one_plan, "/v1/plans/{plan_id}"),
        (requirements, "/v1/requirements"),
    ],
)
def test_a_module_of_routes_serves_its_own_addresses(module, path):
    """The application serves each module's routes, and no address belongs to two modules."""
    assert module.router in ROUTERS
    assert path in {route.path for route in module.router.routes}
    others = [route.path for route in ROUTES if route not in module.router.routes]
    assert path not in others


def test_a_summary_has_times_to_the_millisecond():
    """Times are in UTC with three decimals; what has not happened is null."""
    written = json.loads(summary_answer(QUEUED).model_dump_json())
    assert written["created_at"] == "1970-01-01T00:00:01.234Z"
    assert (written["started_at"], written["finished_at"]) == (None, None)
    assert summary_answer(QUEUED).created_at.tzinfo == dt.UTC


def test_a_plan_is_its_summary_with_what_is_stored_as_it_was_written():
    """The two documents stand in the answer byte for byte, and its fields are the model's."""
    outcome = b'{ "outcome": "solved",\n "x": 1e0 }'
    text = plan_text(StoredPlan(QUEUED, b"{}", None, outcome))
    assert outcome in text
    assert list(json.loads(text)) == list(PlanResourceAnswer.model_fields)
    assert list(PlanResourceAnswer.model_fields)[-2:] == list(STORED_AS_WRITTEN)
    assert json.loads(text)["progress"] is None


def test_health_tells_the_version(shared_client):
    """A service that runs says so with its version."""
    answer = HealthAnswer.model_validate(shared_client.get("/healthz").json())
    assert answer == HealthAnswer(status="ok", version=VERSION)


def test_a_service_that_still_loads_is_healthy_and_not_ready(client, monkeypatch):
    """Until a desk can read a request, readiness is 503 with a time to come again."""
    monkeypatch.setattr(DesksInline, "is_ready", lambda _: False)
    answer = client.get("/readyz")
    assert (answer.status_code, answer.json()["code"]) == (503, "starting")
    assert answer.headers["Retry-After"] == "2"
    assert client.get("/healthz").status_code == 200
    monkeypatch.undo()
    assert client.get("/readyz").status_code == 200


def test_facts_keep_to_their_models(shared_client):
    """Limits and units are answered as described; the page of a list is among the limits."""
    limits = LimitsAnswer.model_validate(shared_client.get("/v1/limits").json())
    listed = {limit.limit_id: limit.value for limit in limits.limits}
    assert listed["page"] == plans.PAGE_PLANS
    assert UnitsAnswer.model_validate(shared_client.get("/v1/units").json()).dimensions


def test_a_plan_check_may_be_larger_than_a_request(client, settings):
    """A plan of 3 MB is taken to be checked, and is too large as a request to plan."""
    assert settings.body_limit_bytes < 3_000_000 < settings.check_limit_bytes
    body = json.dumps({"request": {}, "plan": {"trips": ["x" * 3_000_000]}})
    kind = {"Content-Type": "application/json"}
    assert client.post("/v1/plan-checks", content=body, headers=kind).status_code == 200
    assert client.post("/v1/plans", content=body, headers=kind).status_code == 413


@pytest.mark.parametrize("address", ["messages", "plans/{0}/release", "plans/{0}/stress-tests"])
def test_what_says_little_has_a_small_limit(client, address):
    """64 kB are read and found faulty; one byte more is too large, also once it is unpacked."""
    request = {"route": {"places": [], "legs": []}}
    plan_id = client.post("/v1/plans", json=request).json()["plan_id"]
    listed = {one["limit_id"]: one["value"] for one in client.get("/v1/limits").json()["limits"]}
    most = listed["small_body_bytes"]
    assert most == 64 * 1024

    def answer(size: int, pack=bytes, **headers: str) -> int:
        body = pack(b'{"x":"' + b"x" * (size - 8) + b'"}')
        kind = {"Content-Type": "application/json", **headers}
        where = f"/v1/{address.format(plan_id)}"
        return client.post(where, content=body, headers=kind).status_code

    packed = {"Content-Encoding": "gzip"}
    assert (answer(most), answer(most, gzip.compress, **packed)) == (422, 422)
    assert (answer(most + 1), answer(most + 1, gzip.compress, **packed)) == (413, 413)


def test_each_row_of_a_view_points_to_the_cautions():
    """A view as CSV is a file of its own name, and its last column has the ids of the cautions."""
    outcome = {"cautions": [{"caution_id": "a"}, {"caution_id": "b"}]}
    answer = view_formats.csv_answer(Table(("x",), ((1,),)), outcome, file_name="x.csv")
    assert answer.body == b"x,cautions\r\n1,a b\r\n"
    assert answer.headers["content-disposition"] == 'attachment; filename="x.csv"'
