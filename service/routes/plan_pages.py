"""A solved plan as printed pages: one HTML file."""

import datetime as dt
from dataclasses import dataclass
from typing import Annotated, Literal

from fastapi import APIRouter, Depends, Query
from starlette.responses import Response

from service.http.answers import answers_in, problems
from service.http.negotiation import HTML
from service.pages.facts import PlanFacts, UnitSystem, Writer
from service.pages.render import PaperName, render_pages
from service.pages.sections import SheetName, sections_of
from service.routes.plan_documents import find_plan, find_request, find_solved_outcome
from service.routes.plans import PlanId
from service.wiring import Wired

router = APIRouter(tags=["views of a plan"])

PDF = "application/pdf"
_FIGURES = ("energy", "food", "water", "waste")


@dataclass(frozen=True, slots=True)
class Layout:
    """How the pages are asked for: paper, units, and which sheets."""

    paper: PaperName
    units: UnitSystem
    sheets: frozenset[str] | None


def _layout(
    paper: Annotated[PaperName, Query(description="The size of the paper.")] = "a4",
    units: Annotated[UnitSystem, Query(description="The units of all quantities.")] = "metric",
    sheet: Annotated[
        list[SheetName] | None, Query(description="Only these sheets.", max_length=20)
    ] = None,
) -> Layout:
    return Layout(paper, units, None if sheet is None else frozenset(sheet))


def _format(
    accepted: Annotated[str, Depends(answers_in(HTML, PDF))],
    asked: Annotated[
        Literal["html", "pdf"] | None,
        Query(alias="format", description="Overrides the Accept header, for use in links."),
    ] = None,
) -> str:
    return {"html": HTML, "pdf": PDF, None: accepted}[asked]


@router.get(
    "/v1/plans/{plan_id}/pages",
    operation_id="read_plan_pages",
    summary="Read a plan as pages to print",
    description=(
        "One HTML file that any browser prints, without scripts and without other files: cautions "
        "first, pictures, a sheet for each day, each person and each camp, keepers, caches with "
        "labels, bags, flights, descent, single losses, waiting, assumptions. There is room to "
        "write what was counted. Each page shows the plan, its version, its date and the page "
        "number. Ask for application/pdf to get PDF. If the service does not have the extra `pdf`, "
        "the answer is 406."
    ),
    response_class=Response,
    responses={
        200: {
            "content": {
                HTML: {"schema": {"type": "string"}},
                PDF: {"schema": {"type": "string", "contentMediaType": PDF}},
            }
        },
        **problems(
            "not_found",
            "no_result_yet",
            "plan_cancelled",
            "no_plan_in_outcome",
            "invalid_request",
            "file_too_costly",
            "readers_busy",
        ),
    },
)
def read_plan_pages(
    wiring: Wired,
    plan_id: PlanId,
    media_type: Annotated[str, Depends(_format)],
    layout: Annotated[Layout, Depends(_layout)],
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
        write=Writer(layout.units),
        figures=tuple(figure.model_dump() for figure in needs.figures),
    )
    sections = sections_of(facts, paper=layout.paper, only=layout.sheets)
    made = render_pages(facts, sections, layout.paper)
    headers = {"Vary": "Accept"}
    if media_type == PDF:
        headers["Content-Disposition"] = f'inline; filename="{plan_id}.pdf"'
        written = wiring.pdf_printer.print_pdf(made.html)
        return Response(written, media_type=PDF, headers=headers)
    headers["Content-Security-Policy"] = made.policy
    return Response(made.html, media_type=HTML, headers=headers)
