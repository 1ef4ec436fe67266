"""Plans that last: release one of a reference, read who did, check a stored one again."""

import json
from typing import Annotated

from fastapi import APIRouter, Query, Request
from pydantic import ValidationError
from starlette.concurrency import run_in_threadpool
from starlette.responses import Response

from api_schema.plan_check import PlanCheckAnswer
from api_schema.release import (
    RELEASE_CURSOR_PATTERN,
    ReleaseAnswer,
    ReleaseListAnswer,
    ReleaseRequest,
)
from service.errors import RequestFaults, ServiceProblem
from service.http.answers import (
    EVERY_BODY,
    JSON_ONLY,
    json_answer,
    problems,
    takes_json,
    written_answer,
)
from service.http.request_body import SMALL_BODY_BYTES, read_json_body
from service.http.strict_json import read_json_object
from service.jobs.desk_job import CHECK, RECHECK
from service.routes.plan_documents import find_plan, find_solved_outcome, is_counted, moment
from service.routes.plans import PlanId
from service.routes.unchanged import UNCHANGED, require_match
from service.storage.releases import Release
from service.translate.read.wire_faults import wire_faults
from service.wiring import Wired, Wiring

router = APIRouter(tags=["plans"], dependencies=[JSON_ONLY])

_MOST_LISTED = 100
_UNSOLVED = ("not_found", "no_result_yet", "plan_cancelled", "no_plan_in_outcome")


@router.post(
    "/v1/plans/{plan_id}/release",
    operation_id="release_plan",
    summary="Release a plan",
    description=(
        "Makes this plan the one that holds for its reference. The service records who released "
        "it, when, and a digest of its outcome. A later release of another plan of the same "
        "reference supersedes it. If the plan was released last and still holds, a release changes "
        "nothing. To go back from a re-plan to an older plan of the same party, release that."
    ),
    response_model=ReleaseAnswer,
    responses=problems(*EVERY_BODY, *_UNSOLVED, "no_reference", "changed_since"),
    dependencies=[UNCHANGED],
    openapi_extra=takes_json("ReleaseRequest", {"by_name": {"released_by": "operations desk"}}),
)
async def release_plan(request: Request, wiring: Wired, plan_id: PlanId) -> Response:
    """Release one plan."""
    settings = wiring.settings
    await run_in_threadpool(find_plan, wiring, plan_id)
    limit_bytes = min(SMALL_BODY_BYTES, settings.body_limit_bytes)
    body = await read_json_body(
        request, limit_bytes=limit_bytes, limit_seconds=settings.body_seconds
    )
    try:
        asked = ReleaseRequest.model_validate(read_json_object(body))
    except ValidationError as error:
        raise RequestFaults(wire_faults(error, ReleaseRequest)) from None
    return await run_in_threadpool(_release, request, wiring, plan_id, asked.released_by)


def _release(request: Request, wiring: Wiring, plan_id: str, released_by: str) -> Response:
    find_solved_outcome(wiring, plan_id)
    # A plan with an outcome changes no more, so what holds now holds when it is released.
    plan = find_plan(wiring, plan_id)
    require_match(request, plan)
    reference, outcome = plan.summary.reference, plan.outcome_document
    if reference is None or outcome is None:
        raise ServiceProblem("no_reference")
    released = wiring.releases.release(
        tenant_id=wiring.tenant_id,
        reference=reference,
        plan_id=plan_id,
        released_by=released_by,
        key_id=wiring.key_id,
        outcome=outcome,
    )
    return json_answer(release_answer(released))


@router.get(
    "/v1/plans/{plan_id}/release",
    operation_id="read_release",
    summary="Read the release of a plan",
    description="Who released this plan and when, and which plan holds for its reference now.",
    response_model=ReleaseAnswer,
    responses=problems("not_found"),
)
def read_release(wiring: Wired, plan_id: PlanId) -> Response:
    """The newest release of one plan."""
    find_plan(wiring, plan_id)
    released = wiring.releases.of_plan(tenant_id=wiring.tenant_id, plan_id=plan_id)
    if released is None:
        raise ServiceProblem("not_found", "This plan was never released.")
    return json_answer(release_answer(released))


@router.get(
    "/v1/releases",
    operation_id="list_releases",
    summary="List the releases of a reference",
    description=(
        "The releases of one reference, newest first, up to 100 on a page. The first of all holds "
        "and supersedes the others. A release stays in the list after its plan was deleted."
    ),
    response_model=ReleaseListAnswer,
    responses=problems("invalid_request"),
)
def list_releases(
    wiring: Wired,
    reference: Annotated[
        str, Query(max_length=200, description="The reference.", examples=["booking-1001"])
    ],
    limit: Annotated[
        int, Query(ge=1, le=_MOST_LISTED, description="Releases on one page.")
    ] = _MOST_LISTED,
    cursor: Annotated[
        str | None,
        Query(pattern=RELEASE_CURSOR_PATTERN, description="`next_cursor` of the page before."),
    ] = None,
) -> Response:
    """One page of the releases of one reference."""
    found = wiring.releases.list(
        tenant_id=wiring.tenant_id,
        reference=reference,
        limit=limit + 1,
        before_number=None if cursor is None else int(cursor),
    )
    page = found[:limit]
    return json_answer(
        ReleaseListAnswer(
            releases=[release_answer(one) for one in page],
            next_cursor=str(page[-1].release_number) if len(found) > limit else None,
        )
    )


@router.get(
    "/v1/plans/{plan_id}/check",
    operation_id="check_stored_plan",
    summary="Check a stored plan again",
    description=(
        "Checks the stored plan against its stored request under today's rules. The "
        "`rules_version` of the plan says by which rules it was made. A re-plan is checked with "
        "what was counted and let go. Nothing is stored."
    ),
    response_model=PlanCheckAnswer,
    responses=problems(*_UNSOLVED, "invalid_request", "too_much_work", "too_busy"),
)
def check_stored_plan(wiring: Wired, plan_id: PlanId) -> Response:
    """The findings of today's check on a plan of any age."""
    outcome = find_solved_outcome(wiring, plan_id)
    stored = json.loads(find_plan(wiring, plan_id).request_document)
    if is_counted(stored):
        body = json.dumps({"stored": stored, "outcome": outcome})
        return written_answer(wiring.desks.ask(RECHECK + body.encode()))
    body = json.dumps({"request": stored, "plan": outcome.get("plan")})
    return written_answer(wiring.desks.ask(CHECK + body.encode()))


def release_answer(released: Release) -> ReleaseAnswer:
    """A release as callers see it."""
    return ReleaseAnswer(
        plan_id=released.plan_id,
        reference=released.reference,
        release_number=released.release_number,
        released_by=released.released_by,
        key_id=released.key_id,
        released_at=moment(released.released_at_ms),
        outcome_digest=released.outcome_digest,
        superseded_by=released.superseded_by,
        holds=released.holds,
    )
