"""A stored report after the expedition in the form that is asked for, and reports in short."""

import json
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Annotated, Any, Final, Literal

from fastapi import Depends, Query
from starlette.responses import Response

from api_schema.report_answer import StoredTripReportAnswer, TripReportEntryAnswer
from service.http.answers import answers_in, json_answer
from service.http.negotiation import CSV, HTML, JSON
from service.pages.after import report_sections
from service.pages.render import PaperName, Stamp, render_sheets
from service.reports.after import report_table
from service.routes.plan_documents import find_solved_outcome, moment
from service.routes.sheet_answers import Paper, sheets_answer
from service.routes.view_formats import VARY, Mark, csv_answer
from service.storage.trip_reports import StoredReport
from service.wiring import Wiring

FORMS: Final[dict[int | str, dict[str, Any]]] = {
    200: {"content": {form: {"schema": {"type": "string"}} for form in (CSV, HTML)}}
}
"""The other forms of a report than JSON."""


@dataclass(frozen=True, slots=True)
class Form:
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
) -> Form:
    return Form({"json": JSON, "csv": CSV, "html": HTML, None: accepted}[asked], paper, mark)


AskedForm = Annotated[Form, Depends(_form)]


def report_answer(wiring: Wiring, stored: StoredReport, form: Form) -> Response:
    """One report; `Content-Location` says where it stays."""
    report = _as_told(stored)
    headers = {"Content-Location": f"/v1/plans/{stored.plan_id}/reports/{stored.report_id}"}
    if form.media_type == CSV:
        outcome = find_solved_outcome(wiring, stored.plan_id)
        name = f"{stored.plan_id}-report.csv"
        answer = csv_answer(report_table(report), outcome, file_name=name, mark=form.mark)
    elif form.media_type == HTML:
        made = render_sheets(_stamp(report), report_sections(report), form.paper)
        answer = sheets_answer(wiring, made, HTML, name=stored.plan_id)
    else:
        return json_answer(report, headers={**VARY, **headers})
    answer.headers.update(headers)
    return answer


def reports_on(wiring: Wiring, plan_ids: Sequence[str]) -> list[TripReportEntryAnswer]:
    """What was reported on some plans, in short, the newest first."""
    found = wiring.reports.of_plans(tenant_id=wiring.tenant_id, plan_ids=plan_ids)
    return [
        TripReportEntryAnswer(
            report_id=one.report_id,
            plan_id=one.plan_id,
            stored_at=moment(one.created_at_ms),
            say=json.loads(one.report_document)["say"],
        )
        for one in found
    ]


def _as_told(stored: StoredReport) -> StoredTripReportAnswer:
    told = json.loads(stored.report_document)
    told |= {"report_id": stored.report_id, "stored_at": moment(stored.created_at_ms)}
    return StoredTripReportAnswer.model_validate(told)


def _stamp(report: StoredTripReportAnswer) -> Stamp:
    return Stamp(
        f"After the expedition {report.reference or ''}".strip(),
        f"report on {report.plan_id}",
        f"Report {report.report_id} on plan {report.plan_id}",
        "From what was counted and measured.",
    )
