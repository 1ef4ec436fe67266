"""Judging a plan, ours or one that a person has edited."""

import json

from fastapi import APIRouter, Request
from starlette.concurrency import run_in_threadpool
from starlette.responses import Response

from api_schema.examples import EMPTY_PLAN_CHECK
from api_schema.plan_check import PlanCheckAnswer
from service.http.answers import EVERY_BODY, JSON_ONLY, problems, takes_json, written_answer
from service.http.request_body import read_json_body
from service.jobs.desk_job import CHECK
from service.routes.library_use import whole_body
from service.wiring import Wired, Wiring

router = APIRouter(tags=["plan checks"], dependencies=[JSON_ONLY])


@router.post(
    "/v1/plan-checks",
    operation_id="check_plan",
    summary="Check a plan",
    description=(
        "Replays a plan trip by trip and lists every rule that it breaks, where, and by how much. "
        "Nothing is stored."
    ),
    response_model=PlanCheckAnswer,
    responses=problems(*EVERY_BODY),
    openapi_extra=takes_json("PlanCheckRequest", {"nothing_carried": EMPTY_PLAN_CHECK}),
)
async def check_plan(request: Request, wiring: Wired) -> Response:
    """The findings of the independent check."""
    settings = wiring.settings
    body = await read_json_body(
        request, limit_bytes=settings.check_limit_bytes, limit_seconds=settings.body_seconds
    )
    return await run_in_threadpool(_judge, wiring, body)


def _judge(wiring: Wiring, body: bytes) -> Response:
    def read_rest(document: object) -> None:
        wiring.desks.ask(CHECK + json.dumps(document).encode())

    whole = whole_body(wiring, body, within="request", read_rest=read_rest)
    with whole.faults_as_sent():
        return written_answer(wiring.desks.ask(CHECK + whole.body))
