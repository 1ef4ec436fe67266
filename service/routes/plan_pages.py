"""A solved plan as printed pages: one HTML file, or PDF."""

import datetime as dt

from fastapi import APIRouter
from starlette.responses import Response

from service.http.answers import problems
from service.pages.facts import LineEntry, PlanFacts, ReportSaid, Writer
from service.pages.render import render_pages
from service.pages.sections import sections_of
from service.routes.plan_documents import find_plan, find_request, find_solved_outcome
from service.routes.plans import PlanId
from service.routes.replanning import replan_documents
from service.routes.report_answers import reports_on
from service.routes.sheet_answers import PRINTING, SHEETS, AskedLayout, SheetsType, sheets_answer
from service.storage.plans import StoredPlan
from service.wiring import Wired

router = APIRouter(tags=["views of a plan"])

_FIGURES = ("energy", "food", "water", "waste")


@router.get(
    "/v1/plans/{plan_id}/pages",
    operation_id="read_plan_pages",
    summary="Read a plan as pages to print",
    description=(
        "One HTML file that any browser prints, without scripts and without other files: cautions "
        "first, pictures, a sheet for each day, each person and each camp, keepers, caches with "
        "labels, bags, flights, descent, single losses, waiting, history of re-plans, "
        "assumptions. There is room to write what was counted. Each page shows the plan, its "
        "version, its date and the page number. Ask for application/pdf to get PDF. If the service "
        "does not have the extra `pdf`, the answer is 406."
    ),
    response_class=Response,
    responses={
        **SHEETS,
        **problems(
            "not_found",
            "no_result_yet",
            "plan_cancelled",
            "no_plan_in_outcome",
            "invalid_request",
            *PRINTING,
        ),
    },
)
def read_plan_pages(
    wiring: Wired,
    plan_id: PlanId,
    media_type: SheetsType,
    layout: AskedLayout,
) -> Response:
    """The pages of a solved plan."""
    outcome, request = find_solved_outcome(wiring, plan_id), find_request(wiring, plan_id)
    summary = find_plan(wiring, plan_id).summary
    finished = dt.datetime.fromtimestamp(
        (summary.finished_at_ms or summary.created_at_ms) / 1000, dt.UTC
    )
    needs = wiring.translation.state_requirements(request, _FIGURES)
    line = wiring.lineage.line_to(tenant_id=wiring.tenant_id, plan_id=plan_id)
    facts = PlanFacts(
        plan_id=plan_id,
        version=summary.attempt,
        made_at=f"{finished:%Y-%m-%d %H:%M} UTC",
        outcome=outcome,
        request=request,
        write=Writer(layout.units),
        figures=tuple(figure.model_dump() for figure in needs.figures),
        line=tuple(_entry(find_plan(wiring, one.plan_id)) for one in line),
        reports=tuple(
            ReportSaid(f"{one.stored_at:%Y-%m-%d %H:%M} UTC", tuple(one.say))
            for one in reports_on(wiring, [one.plan_id for one in line])
        ),
        what_if=line[-1].what_if if line else False,
        superseded_by=wiring.lineage.replaced_by(tenant_id=wiring.tenant_id, plan_id=plan_id),
    )
    sections = sections_of(facts, paper=layout.paper, only=layout.sheets)
    made = render_pages(facts, sections, layout.paper)
    return sheets_answer(wiring, made, media_type, name=plan_id)


def _entry(plan: StoredPlan) -> LineEntry:
    """One plan of the line, with what was counted for it."""
    state, rest = replan_documents(plan)
    counted = None if state is None else f"{state['at']['moment']} of day {state['at']['day']}"
    return LineEntry(plan.summary.plan_id, counted, () if rest is None else tuple(rest["say"]))
