"""Comparisons: one expedition in several variants, each solved as a plan, and their table."""

from typing import Annotated

from fastapi import APIRouter, Header, Path, Request
from starlette.concurrency import run_in_threadpool
from starlette.responses import Response

from api_schema.comparison_answer import ComparisonAnswer
from api_schema.examples import SMALLEST_COMPARISON
from service.errors import ServiceProblem
from service.http.answers import (
    EVERY_BODY,
    JSON_ONLY,
    json_answer,
    problems,
    takes_json,
)
from service.http.negotiation import CSV, HTML
from service.pages.compared import comparison_sections
from service.pages.render import Stamp, drawing_width, render_sheets
from service.reports.comparisons import comparison_table
from service.routes.comparison_plans import accept_comparison, comparison_answer, wait_for
from service.routes.once import IdempotencyKey, begun_once
from service.routes.screen_answers import MediaTypeOrTable, screen_answer
from service.routes.sheet_answers import PRINTING, SHEETS, Paper, SheetsType, sheets_answer
from service.routes.view_formats import VARY
from service.routes.waiting import (
    granted_wait,
    step_out,
    work_answer,
    work_answers,
)
from service.screens.comparison_screen import comparison_screen
from service.wiring import Wired, Wiring

router = APIRouter(tags=["comparisons"])


@router.post(
    "/v1/comparisons",
    operation_id="create_comparison",
    summary="Compare variants of an expedition",
    description=(
        "Takes a base request and up to 50 named variants, each a JSON merge patch (RFC 7396), a "
        "list of named edits, or both. Every variant is stored and solved as an ordinary plan, so "
        "it gives the same plan as if sent alone. Equal requests are solved once. A faulty variant "
        "gets a row with its faults and does not stop the others. If too many plans wait, some "
        "variants are not accepted, and their rows say so. The answer is 202 at once. With "
        "`Prefer: wait=N` the service waits up to N seconds and answers 201 if every variant is "
        "solved by then."
    ),
    status_code=202,
    response_model=ComparisonAnswer,
    responses={
        **work_answers(
            ComparisonAnswer,
            what="The comparison.",
            ready="The comparison with all outcomes, ready within the wait.",
            accepted="Accepted: the variants wait to be solved, or are being solved.",
        ),
        **problems(*EVERY_BODY, "idempotency_key_reused", "queue_full", "shutting_down"),
    },
    openapi_extra=takes_json("ComparisonRequest", {"smallest": SMALLEST_COMPARISON}),
    dependencies=[JSON_ONLY],
)
async def create_comparison(
    request: Request,
    wiring: Wired,
    _prefer: Annotated[
        str | None,
        Header(
            alias="Prefer",
            description="`wait=N`: seconds to wait for the outcomes (RFC 7240).",
            examples=["wait=30"],
        ),
    ] = None,
    key: IdempotencyKey = None,
) -> Response:
    """Store the variants of a comparison as plans and wait as long as the caller prefers."""
    stored = await begun_once(
        request,
        wiring,
        key,
        begin=lambda body, named: accept_comparison(wiring, body, named),
        again=lambda base_id: wiring.comparisons.of_base(
            tenant_id=wiring.tenant_id, plan_id=base_id
        ),
    )
    step_out(request)
    seconds = granted_wait(request, wiring)
    await wait_for(wiring, stored, seconds or 0)
    answer = await run_in_threadpool(comparison_answer, wiring, stored)
    return work_answer(
        answer.model_dump_json().encode(),
        address=f"/v1/comparisons/{stored.comparison_id}",
        final=answer.done,
        granted_seconds=seconds,
    )


ComparisonId = Annotated[
    str,
    Path(
        description="The name that the service gave the comparison.",
        examples=["comparison_01m894y1x3y07966fb6kk0wj7j"],
    ),
]


@router.get(
    "/v1/comparisons/{comparison_id}",
    operation_id="read_comparison",
    summary="Read a comparison",
    description=(
        "The table of a comparison: a row for the base and for each variant, with the figures of "
        "its plan, or why there is none, and what differs from the base. You can read it as JSON, "
        "as CSV with one line for each variant, or as a page. Rows are filled in as variants are "
        "solved. If the comparison has `cancel_beaten`, a reader whose key has the scope `plan` "
        "also has beaten variants cancelled, here and at the pages to print. A key with `read` "
        "alone changes nothing."
    ),
    response_model=ComparisonAnswer,
    responses={
        200: {
            "content": {
                CSV: {"schema": {"type": "string"}},
                HTML: {"schema": {"type": "string"}},
            }
        },
        **problems("not_found", "invalid_request"),
    },
)
def read_one_comparison(
    wiring: Wired,
    comparison_id: ComparisonId,
    media_type: MediaTypeOrTable,
) -> Response:
    """One comparison with what is known of its variants."""
    answer = _find(wiring, comparison_id)
    if media_type == CSV:
        name = f"{comparison_id}.csv"
        headers = {**VARY, "Content-Disposition": f'attachment; filename="{name}"'}
        return Response(comparison_table(answer).as_csv(), media_type=CSV, headers=headers)
    if media_type == HTML:
        return screen_answer(comparison_screen(answer))
    return json_answer(answer, headers=VARY)


@router.get(
    "/v1/comparisons/{comparison_id}/pages",
    operation_id="read_comparison_pages",
    summary="Read a comparison as pages to print",
    description=(
        "One HTML file that any browser prints: the peaks as bars, the figures of each variant "
        "with their differences from the base, and what differs in the requests. Ask for "
        "application/pdf to get PDF, where the service has the extra `pdf`."
    ),
    response_class=Response,
    responses={**SHEETS, **problems("not_found", "invalid_request", *PRINTING)},
)
def read_comparison_pages(
    wiring: Wired, comparison_id: ComparisonId, media_type: SheetsType, paper: Paper = "a4"
) -> Response:
    """The sheets of one comparison."""
    answer = _find(wiring, comparison_id)
    made_at = f"{answer.created_at:%Y-%m-%d %H:%M} UTC"
    stamp = Stamp(
        f"Comparison {answer.reference or ''}".strip(),
        f"{comparison_id}, {made_at}",
        f"Comparison {comparison_id}, asked for {made_at}",
        "Superseded if any of its requests has changed since.",
    )
    sections = comparison_sections(answer, width=drawing_width(paper))
    made = render_sheets(stamp, sections, paper)
    return sheets_answer(wiring, made, media_type, name=comparison_id)


def _find(wiring: Wiring, comparison_id: str) -> ComparisonAnswer:
    stored = wiring.comparisons.read(tenant_id=wiring.tenant_id, comparison_id=comparison_id)
    if stored is None:
        raise ServiceProblem("not_found", "There is no comparison with this comparison_id.")
    return comparison_answer(wiring, stored)
