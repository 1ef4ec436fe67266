"""After the expedition: planned against used, from what came home and what was measured."""

import json
from typing import Annotated

from fastapi import APIRouter, Path, Request
from starlette.concurrency import run_in_threadpool
from starlette.responses import Response

from api_schema.report_answer import StoredTripReportAnswer, TripReportListAnswer
from service.errors import ServiceProblem
from service.http.answers import EVERY_BODY, JSON_ONLY, json_answer, problems, takes_json
from service.http.request_body import read_json_body
from service.http.strict_json import read_json_object
from service.routes.plan_documents import find_plan, find_solved_outcome
from service.routes.plans import PlanId
from service.routes.replanning import replan_documents
from service.routes.report_answers import FORMS, AskedForm, report_answer, reports_on
from service.storage.trip_reports import MOST_KEPT, StoredReport
from service.translate.read.report_facts import Line
from service.translate.read.trip_report import read_report
from service.translate.write.after.report import write_report
from service.wiring import Wired, Wiring

ReportId = Annotated[str, Path(description="The name that the service gave the report.")]

router = APIRouter(tags=["after the expedition"])

EXAMPLE_REPORT = {
    "night_sets": [{"unit_id": "all/low", "bags": 1}],
    "containers": [{"unit_id": "all/bottle", "full": 1, "open": ["300 mL"]}],
    "hours": [{"day": 2, "time": "6.5 h"}],
    "remarks": ["We cooked twice in the storm."],
}


@router.post(
    "/v1/plans/{plan_id}/reports",
    operation_id="report_after_expedition",
    summary="Compare what was planned with what was used",
    description=(
        "Takes what came home and what was measured on the way. It compares food, fuel, hours and "
        "loads with the plan that was followed. What its re-plans counted as lost does not count "
        "as used. `rates` are figures for the next request, and `next_request` has them in the "
        "form of a request. The report says of each rate whether it comes from too little to "
        "plan with. CSV has one line for each figure, and HTML is a sheet to print. The report is "
        "stored with the plan and goes with it; `Content-Location` says where it is. The same body "
        f"again is the same report. Of each plan the newest {MOST_KEPT} are kept."
    ),
    response_model=StoredTripReportAnswer,
    responses={
        **FORMS,
        **problems(
            *EVERY_BODY, "not_found", "no_result_yet", "plan_cancelled", "no_plan_in_outcome"
        ),
    },
    openapi_extra=takes_json("TripReportRequest", {"leftovers": EXAMPLE_REPORT}),
)
async def report_after_expedition(
    request: Request, wiring: Wired, plan_id: PlanId, form: AskedForm
) -> Response:
    """The report on one plan."""
    await run_in_threadpool(find_plan, wiring, plan_id)
    settings = wiring.settings
    body = await read_json_body(
        request, limit_bytes=settings.body_limit_bytes, limit_seconds=settings.body_seconds
    )
    stored = await run_in_threadpool(_report, wiring, plan_id, body)
    return await run_in_threadpool(report_answer, wiring, stored, form)


@router.get(
    "/v1/plans/{plan_id}/reports",
    operation_id="list_trip_reports",
    summary="List the reports on a plan",
    description="What was reported after the expedition, in short.",
    response_model=TripReportListAnswer,
    responses=problems("not_found"),
    dependencies=[JSON_ONLY],
)
def list_trip_reports(wiring: Wired, plan_id: PlanId) -> Response:
    """The stored reports on one plan."""
    find_plan(wiring, plan_id)
    return json_answer(TripReportListAnswer(reports=reports_on(wiring, [plan_id])))


@router.get(
    "/v1/plans/{plan_id}/reports/{report_id}",
    operation_id="read_trip_report",
    summary="Read a report on a plan",
    description="The report as it was answered when it was stored, in any of its forms.",
    response_model=StoredTripReportAnswer,
    responses={
        **FORMS,
        **problems("not_found", "no_result_yet", "plan_cancelled", "no_plan_in_outcome"),
    },
)
def read_trip_report(
    wiring: Wired,
    plan_id: PlanId,
    report_id: ReportId,
    form: AskedForm,
) -> Response:
    """One stored report."""
    find_plan(wiring, plan_id)
    stored = wiring.reports.read(tenant_id=wiring.tenant_id, plan_id=plan_id, report_id=report_id)
    if stored is None:
        raise ServiceProblem("not_found", "This plan has no report with this report_id.")
    return report_answer(wiring, stored, form)


def _report(wiring: Wiring, plan_id: str, body: bytes) -> StoredReport:
    report = write_report(read_report(_line(wiring, plan_id), read_json_object(body)))
    written = report.model_dump_json().encode()
    return wiring.reports.keep(
        tenant_id=wiring.tenant_id, plan_id=plan_id, sent=body, report=written
    )


def _line(wiring: Wiring, plan_id: str) -> Line:
    """A solved plan with the first plan that it came of, and the counts on the way."""
    outcome = find_solved_outcome(wiring, plan_id)
    entries = wiring.lineage.line_to(tenant_id=wiring.tenant_id, plan_id=plan_id)
    if not entries:
        # The plan was deleted since its outcome was read.
        raise ServiceProblem("not_found", "There is no plan with this plan_id.")
    plans = [replan_documents(find_plan(wiring, entry.plan_id)) for entry in entries]
    first = entries[0]
    return Line(
        plan_id=plan_id,
        document=json.loads(find_plan(wiring, plan_id).request_document),
        outcome=outcome,
        first_plan_id=first.plan_id,
        first_outcome=find_solved_outcome(wiring, first.plan_id),
        is_whole=first.former_plan_id is None,
        states={
            len(rest.get("settled", ())) - 1: state
            for state, rest in plans
            if state is not None and rest is not None
        },
    )
