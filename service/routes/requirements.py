"""What a trip needs, worked out without a plan."""

import json
from typing import Annotated

from fastapi import APIRouter, Query, Request
from starlette.concurrency import run_in_threadpool
from starlette.responses import Response

from api_schema.examples import SMALLEST_REQUEST, TOLD_CONDITIONS
from api_schema.requirements_answer import PartName, RequirementsAnswer
from service.http.answers import EVERY_BODY, JSON_ONLY, problems, takes_json, written_answer
from service.http.request_body import read_json_body
from service.jobs.desk_job import REQUIREMENTS
from service.routes.library_use import whole_body
from service.wiring import Wired, Wiring

router = APIRouter(tags=["requirements"], dependencies=[JSON_ONLY])


@router.post(
    "/v1/requirements",
    operation_id="state_requirements",
    summary="State what an expedition needs",
    description=(
        "Takes the same body as `POST /v1/plans`. It answers at once with the water, fuel, food, "
        "energy and all else that the expedition needs. Each figure has its formula, its source "
        "and its inputs, and says which inputs are defaults. Nothing is solved or stored."
    ),
    response_model=RequirementsAnswer,
    responses=problems(*EVERY_BODY),
    openapi_extra=takes_json(
        "PlanRequest", {"smallest": SMALLEST_REQUEST, "with_conditions": TOLD_CONDITIONS}
    ),
)
async def state_requirements(
    request: Request,
    wiring: Wired,
    part: Annotated[
        list[PartName] | None,
        Query(description="Only the figures of these parts.", max_length=20),
    ] = None,
) -> Response:
    """The figures of all parts or of those asked for."""
    settings = wiring.settings
    body = await read_json_body(
        request, limit_bytes=settings.body_limit_bytes, limit_seconds=settings.body_seconds
    )
    return await run_in_threadpool(_state, wiring, body, part)


def _state(wiring: Wiring, body: bytes, part_names: list[PartName] | None) -> Response:
    whole = whole_body(wiring, body)
    question = REQUIREMENTS + json.dumps(part_names).encode() + b"\n" + whole.body
    with whole.faults_as_sent():
        return written_answer(wiring.desks.ask(question))
