"""Calendars worth having for the rest of an expedition, from what was counted."""

from fastapi import APIRouter, Request
from starlette.concurrency import run_in_threadpool
from starlette.responses import Response

from api_schema.replan_calendars_answer import RestCalendarsAnswer
from service.http.answers import EVERY_BODY, JSON_ONLY, problems, takes_json, written_answer
from service.http.request_body import read_json_body
from service.http.strict_json import read_json_object
from service.routes.calendars import question_seconds
from service.routes.plan_documents import find_plan
from service.routes.plans import PlanId
from service.routes.replanning import followed_plan
from service.wiring import Wired, Wiring

router = APIRouter(tags=["re-plans"], dependencies=[JSON_ONLY])

EXAMPLE_CHOICE = {
    "state": {"at": {"day": 2, "moment": "evening"}},
    "days": 7,
    "seconds": 20,
}


@router.post(
    "/v1/plans/{plan_id}/replans/calendars",
    operation_id="find_replan_calendars",
    summary="Find calendars for the rest",
    description=(
        "The calendars that are still worth having, from what was counted on. The days that are "
        "over stay. The service chooses days without travel and carries in the days to come, "
        "within the rules given. Each calendar is planned as a re-plan would plan it. One is left "
        "out if another lets go no more, has no more days, and has a peak that is at most "
        "`tolerance` higher. The answer has those that no other beats in everything: "
        "less let go, fewer days, a lower peak, fewer changed loads. It says how many have no "
        "plan, were set aside, or were not decided in time. Each can be sent as the `calendar` of "
        "a re-plan with the same state. Nothing is stored."
    ),
    response_model=RestCalendarsAnswer,
    responses=problems(
        *EVERY_BODY, "not_found", "no_result_yet", "plan_cancelled", "no_plan_in_outcome"
    ),
    openapi_extra=takes_json("ReplanCalendarsRequest", {"after_day_2": EXAMPLE_CHOICE}),
)
async def find_replan_calendars(request: Request, wiring: Wired, plan_id: PlanId) -> Response:
    """The calendars for the rest of one plan."""
    await run_in_threadpool(find_plan, wiring, plan_id)
    settings = wiring.settings
    body = await read_json_body(
        request, limit_bytes=settings.body_limit_bytes, limit_seconds=settings.body_seconds
    )
    return await run_in_threadpool(_ask, wiring, plan_id, body)


def _ask(wiring: Wiring, plan_id: str, body: bytes) -> Response:
    document = read_json_object(body)
    question = {
        "question": "replan_calendars",
        "followed": followed_plan(wiring, plan_id),
        "body": document,
    }
    return written_answer(
        wiring.questions.ask(question, seconds=question_seconds(wiring, document))
    )
