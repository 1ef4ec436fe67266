"""What differs between two plans."""

from typing import Annotated, Final

from fastapi import APIRouter, Query
from starlette.responses import Response

from api_schema.difference_answer import DifferenceAnswer
from api_schema.plan_resource import PLAN_ID_PATTERN
from service.http.answers import json_answer, problems
from service.http.negotiation import CSV, HTML
from service.reports.differences import ComparedPlan, difference_of, difference_table
from service.routes.plan_documents import find_outcome, find_request
from service.routes.plans import PlanId
from service.routes.screen_answers import MediaTypeOrTable, screen_answer
from service.routes.view_formats import VARY
from service.screens.difference_screen import difference_screen
from service.translate.read.edits.edited_request import request_to_compare
from service.wiring import Wired, Wiring

router = APIRouter(tags=["comparisons"])

OtherPlanId = Annotated[
    str, Query(pattern=PLAN_ID_PATTERN, description="The plan to compare this one with.")
]
PROBLEMS: Final = problems("not_found", "no_result_yet", "plan_cancelled", "invalid_request")


@router.get(
    "/v1/plans/{plan_id}/difference",
    operation_id="read_plan_difference",
    summary="Read what differs between two plans",
    description=(
        "What differs between two plans, in their requests and in their results: people, figures, "
        "things taken along, and kilograms by person and trip. A plan without a solution has a "
        "reason instead of figures. CSV has one line for each difference. A browser gets a page."
    ),
    response_model=DifferenceAnswer,
    responses={
        200: {
            "content": {
                CSV: {"schema": {"type": "string"}},
                HTML: {"schema": {"type": "string"}},
            }
        },
        **PROBLEMS,
    },
)
def read_plan_difference(
    wiring: Wired,
    plan_id: PlanId,
    media_type: MediaTypeOrTable,
    to: OtherPlanId,
) -> Response:
    """The difference from one plan to another."""
    told = difference_of(compared(wiring, plan_id), compared(wiring, to))
    if media_type == CSV:
        name = f"{plan_id}-difference.csv"
        headers = {**VARY, "Content-Disposition": f'attachment; filename="{name}"'}
        return Response(difference_table(told).as_csv(), media_type=CSV, headers=headers)
    if media_type == HTML:
        return screen_answer(difference_screen(told))
    return json_answer(told, headers=VARY)


def compared(wiring: Wiring, plan_id: str) -> ComparedPlan:
    """A stored plan with its request as its own edits leave it."""
    request = request_to_compare(find_request(wiring, plan_id))
    return ComparedPlan(plan_id, request, find_outcome(wiring, plan_id))
