"""After the expedition: planned against used, from what came home and what was measured."""

import json
from dataclasses import dataclass
from typing import Annotated, Literal

from fastapi import APIRouter, Depends, Query, Request
from starlette.concurrency import run_in_threadpool
from starlette.responses import Response

from api_schema.report_answer import TripReportAnswer
from service.http.answers import EVERY_BODY, answers_in, json_answer, problems, takes_json
from service.http.negotiation import CSV, HTML, JSON
from service.http.request_body import read_json_body
from service.http.strict_json import read_json_object
from service.pages.after import report_sections
from service.pages.render import PaperName, Stamp, render_sheets
from service.reports.after import report_table
from service.routes.plan_documents import find_plan, find_solved_outcome
from service.routes.plans import PlanId
from service.routes.sheet_answers import Paper, sheets_answer
from service.routes.view_formats import VARY, Mark, csv_answer
from service.translate.read.report_facts import Line
from service.translate.read.trip_report import read_report
from service.translate.write.after.report import write_report
from service.wiring import Wired, Wiring

router = APIRouter(tags=["after the expedition"])

EXAMPLE_REPORT = {
    "night_sets": [{"unit_id": "all/low", "bags": 1}],
    "containers": [{"unit_id": "all/bottle", "full": 1, "open": ["300 mL"]}],
    "hours": [{"day": 2, "time": "6.5 h"}],
    "remarks": ["We cooked twice in the storm."],
}


@dataclass(frozen=True, slots=True)
class _Form:
    """How a report is asked for: media type, paper, and what stands before the CSV."""

    media_type: str
    paper: PaperName
    mark: bytes


def _form(
    accepted: Annotated[str, Depends(answers_in(JSON, CSV, HTML))],
    mark: Mark,
    asked: Annotated[
        Literal["json", "csv", "html"] | None,
        Query(alias="format", description="Overrides the Accept header."),
    ] = None,
    paper: Paper = "a4",
) -> _Form:
    return _Form({"json": JSON, "csv": CSV, "html": HTML, None: accepted}[asked], paper, mark)


@router.post(
    "/v1/plans/{plan_id}/reports",
    operation_id="report_after_expedition",
    summary="Compare what was planned with what was used",
    description=(
        "Takes what came home and what was measured on the way. It compares food, fuel, hours and "
        "loads with the plan that was followed. What its re-plans counted as lost does not count "
        "as used. `rates` are figures for the next request, and `next_request` has them in the "
        "form of a request. The report says of each rate whether it comes from too little to "
        "plan with. CSV has one line for each figure, and HTML is a sheet to print. Nothing is "
        "stored."
    ),
    response_model=TripReportAnswer,
    responses={
        200: {"content": {form: {"schema": {"type": "string"}} for form in (CSV, HTML)}},
        **problems(
            *EVERY_BODY, "not_found", "no_result_yet", "plan_cancelled", "no_plan_in_outcome"
        ),
    },
    openapi_extra=takes_json("TripReportRequest", {"leftovers": EXAMPLE_REPORT}),
)
async def report_after_expedition(
    request: Request, wiring: Wired, plan_id: PlanId, form: Annotated[_Form, Depends(_form)]
) -> Response:
    """The report on one plan."""
    await run_in_threadpool(find_plan, wiring, plan_id)
    settings = wiring.settings
    body = await read_json_body(
        request, limit_bytes=settings.body_limit_bytes, limit_seconds=settings.body_seconds
    )
    line, report = await run_in_threadpool(_report, wiring, plan_id, body)
    if form.media_type == CSV:
        name = f"{plan_id}-report.csv"
        return csv_answer(report_table(report), dict(line.outcome), file_name=name, mark=form.mark)
    if form.media_type == HTML:
        made = render_sheets(_stamp(report), report_sections(report), form.paper)
        return sheets_answer(wiring, made, HTML, name=plan_id)
    return json_answer(report, headers=VARY)


def _report(wiring: Wiring, plan_id: str, body: bytes) -> tuple[Line, TripReportAnswer]:
    line = _line(wiring, plan_id)
    return line, write_report(read_report(line, read_json_object(body)))


def _stamp(report: TripReportAnswer) -> Stamp:
    return Stamp(
        f"After the expedition {report.reference or ''}".strip(),
        f"report on {report.plan_id}",
        f"Report on plan {report.plan_id}",
        "From what was counted and measured; nothing of it is stored.",
    )


def _line(wiring: Wiring, plan_id: str) -> Line:
    """A solved plan with the first plan that it came of, and the counts on the way."""
    outcome = find_solved_outcome(wiring, plan_id)
    entries = wiring.lineage.line_to(tenant_id=wiring.tenant_id, plan_id=plan_id)
    documents = [json.loads(find_plan(wiring, entry.plan_id).request_document) for entry in entries]
    first = entries[0]
    return Line(
        plan_id=plan_id,
        document=documents[-1],
        outcome=outcome,
        first_plan_id=first.plan_id,
        first_outcome=find_solved_outcome(wiring, first.plan_id),
        is_whole=first.former_plan_id is None,
        states=[document["state"] for document in documents if "state" in document],
    )
