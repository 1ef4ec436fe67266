"""What binds a plan and what one step of anything is worth."""

from typing import Annotated, Final

from fastapi import APIRouter, Query
from starlette.responses import Response

from api_schema.limits_answer import LimitsThatBindAnswer
from service.http.answers import problems, written_answer
from service.http.negotiation import CSV, HTML
from service.reports.binding_limits import binding_limits_table
from service.routes.plan_documents import find_solved_outcome, find_whole_request
from service.routes.plans import PlanId
from service.routes.screen_answers import MediaTypeOrTable, screen_answer
from service.routes.view_formats import VARY, Mark
from service.screens.binding_limits_screen import binding_limits_screen
from service.wiring import Wired

router = APIRouter(tags=["views of a plan"])

Seconds = Annotated[int, Query(ge=2, le=120, description="Time for solving steps, in seconds.")]
PROBLEMS: Final = problems(
    "not_found",
    "no_result_yet",
    "plan_cancelled",
    "no_plan_in_outcome",
    "made_on_the_way",
    "invalid_request",
    "too_busy",
    "too_much_work",
)


@router.get(
    "/v1/plans/{plan_id}/limits-that-bind",
    operation_id="read_limits_that_bind",
    summary="Ask what binds a plan",
    description=(
        "The caps that set the peak load, and what one step of anything would change: 1 kg or 1 L "
        "more or less in a pack or sled, one person, sled, carry or night more or less. For each "
        "step the service finds a proof or solves again, as far as the time allows. The answer "
        "says how many were not tried. CSV has one line for each cap at the peak and for each "
        "step. A browser gets a page."
    ),
    response_model=LimitsThatBindAnswer,
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
def read_limits_that_bind(
    wiring: Wired,
    plan_id: PlanId,
    media_type: MediaTypeOrTable,
    mark: Mark,
    seconds: Seconds = 20,
) -> Response:
    """The limits that bind a solved plan."""
    outcome = find_solved_outcome(wiring, plan_id)
    question = {
        "question": "limits_that_bind",
        "plan_id": plan_id,
        "request": find_whole_request(wiring, plan_id),
        "plan": outcome["plan"],
        "bound": outcome["bound"],
    }
    granted = min(seconds, wiring.settings.question_limit_seconds)
    answer = wiring.questions.ask(question, seconds=granted)
    if media_type not in (CSV, HTML):
        return written_answer(answer, headers=VARY)
    told = LimitsThatBindAnswer.model_validate_json(answer)
    if media_type == HTML:
        return screen_answer(binding_limits_screen(told))
    name = f"{plan_id}-limits-that-bind.csv"
    headers = {**VARY, "Content-Disposition": f'attachment; filename="{name}"'}
    return Response(mark + binding_limits_table(told).as_csv(), media_type=CSV, headers=headers)
