"""What binds a plan and what one step of anything is worth."""

from typing import Annotated

from fastapi import APIRouter, Query
from starlette.responses import Response

from api_schema.limits_answer import LimitsThatBindAnswer
from service.http.answers import JSON_ONLY, problems, written_answer
from service.routes.plan_documents import find_request, find_solved_outcome
from service.routes.plans import PlanId
from service.wiring import Wired

router = APIRouter(tags=["views of a plan"], dependencies=[JSON_ONLY])


@router.get(
    "/v1/plans/{plan_id}/limits-that-bind",
    operation_id="read_limits_that_bind",
    summary="Ask what binds a plan",
    description=(
        "The caps that set the peak load, and what one step of anything would change: 1 kg or 1 L "
        "more or less in a pack or sled, one person, sled, carry or night more or less. For each "
        "step the service finds a proof or solves again, as far as the time allows. The answer "
        "says how many were not tried."
    ),
    response_model=LimitsThatBindAnswer,
    responses=problems(
        "not_found",
        "no_result_yet",
        "no_plan_in_outcome",
        "invalid_request",
        "too_busy",
        "too_much_work",
    ),
)
def read_limits_that_bind(
    wiring: Wired,
    plan_id: PlanId,
    seconds: Annotated[
        int, Query(ge=2, le=120, description="Time for solving steps, in seconds.")
    ] = 20,
) -> Response:
    """The limits that bind a solved plan."""
    outcome = find_solved_outcome(wiring, plan_id)
    question = {
        "question": "limits_that_bind",
        "plan_id": plan_id,
        "request": find_request(wiring, plan_id),
        "plan": outcome["plan"],
        "bound": outcome["bound"],
    }
    granted = min(seconds, wiring.settings.question_limit_seconds)
    return written_answer(wiring.questions.ask(question, seconds=granted))
