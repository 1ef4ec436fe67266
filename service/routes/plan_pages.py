"""A solved plan as printed pages: one HTML file."""

import datetime as dt
from typing import Annotated

from fastapi import APIRouter, Depends, Query
from starlette.responses import Response

from service.http.answers import answers_in, problems
from service.pages.facts import PlanFacts, UnitSystem, Writer
from service.pages.render import PaperName, render_pages
from service.pages.sections import SheetName, sections_of
from service.routes.plan_documents import find_plan, find_request, find_solved_outcome
from service.routes.plans import PlanId
from service.wiring import Wired

router = APIRouter(tags=["views of a plan"])

HTML = "text/html"
_FIGURES = ("energy", "food", "water", "waste")


@router.get(
    "/v1/plans/{plan_id}/pages",
    operation_id="read_plan_pages",
    summary="Read a plan as pages to print",
    description=(
        "One HTML file that any browser prints, without scripts and without other files: cautions "
        "first, pictures, a sheet for each day, each person and each camp, keepers, caches with "
        "labels, bags, flights, descent, single losses, waiting, assumptions. There is room to "
        "write what was counted. Each page has the plan, its version, its date and its number."
    ),
    response_class=Response,
    responses={
        200: {"content": {HTML: {"schema": {"type": "string"}}}},
        **problems("not_found", "no_result_yet", "no_plan_in_outcome", "invalid_request"),
    },
)
def read_plan_pages(
    wiring: Wired,
    plan_id: PlanId,
    _accepted: Annotated[str, Depends(answers_in(HTML))],
    paper: Annotated[PaperName, Query(description="The size of the paper.")] = "a4",
    units: Annotated[UnitSystem, Query(description="The units of all quantities.")] = "metric",
    sheet: Annotated[
        list[SheetName] | None, Query(description="Only these sheets.", max_length=20)
    ] = None,
) -> Response:
    """The pages of a solved plan."""
    outcome, request = find_solved_outcome(wiring, plan_id), find_request(wiring, plan_id)
    summary = find_plan(wiring, plan_id).summary
    finished = dt.datetime.fromtimestamp(
        (summary.finished_at_ms or summary.created_at_ms) / 1000, dt.UTC
    )
    needs = wiring.translation.state_requirements(request, _FIGURES)
    facts = PlanFacts(
        plan_id=plan_id,
        version=summary.attempt,
        made_at=f"{finished:%Y-%m-%d %H:%M} UTC",
        outcome=outcome,
        request=request,
        write=Writer(units),
        figures=tuple(figure.model_dump() for figure in needs.figures),
    )
    only = None if sheet is None else frozenset(sheet)
    made = render_pages(facts, sections_of(facts, paper=paper, only=only), paper)
    return Response(made.html, media_type=HTML, headers={"Content-Security-Policy": made.policy})
