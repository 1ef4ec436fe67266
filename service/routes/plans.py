"""Plans: ask for one, list them."""

import contextlib
import json
import re
from collections.abc import Callable
from datetime import datetime
from typing import Annotated

from fastapi import APIRouter, Header, Path, Query, Request
from pydantic import AwareDatetime, ValidationError, WrapValidator
from pydantic_core import PydanticCustomError
from starlette.responses import Response

from api_schema.examples import SMALLEST_REQUEST
from api_schema.plan_resource import (
    PLAN_ID_PATTERN,
    PlanListAnswer,
    PlanResourceAnswer,
    PlanStateName,
)
from service.errors import Fault, RequestFaults
from service.http.answers import EVERY_BODY, JSON_ONLY, json_answer, problems, takes_json
from service.http.negotiation import HTML
from service.http.strict_json import read_json_object
from service.jobs.desk_job import ORDER, read_order
from service.routes.asked_webhook import (
    asked_webhook,
    webhook_faults,
    with_webhook_faults,
)
from service.routes.library_use import whole_body
from service.routes.near_plan import NAMES, with_named_plans
from service.routes.once import IdempotencyKey, begun_once, begun_plan
from service.routes.plan_documents import summary_answer
from service.routes.screen_answers import PAGE_TOO, MediaType, screen_answer
from service.routes.view_formats import VARY
from service.routes.waiting import accepted_answer, work_answers
from service.screens.plan_list import plan_list_screen
from service.storage.idempotency import RequestKey
from service.storage.plans import PlanSummary
from service.wiring import Wired, Wiring

router = APIRouter(tags=["plans"])

PlanId = Annotated[
    str,
    Path(
        description="The name that the service gave the plan.",
        examples=["plan_01m894y1x3y07966fb6kk0wj7j"],
    ),
]


def _date_and_time(value: object, read: Callable[[object], datetime]) -> datetime:
    """A date and time as RFC 3339 has it; pydantic alone would take a count of seconds, too."""
    if isinstance(value, str) and _BEGINS_AS_ONE.match(value):
        with contextlib.suppress(ValidationError):
            return read(value)
    raise PydanticCustomError("not_a_date_and_time", _HOW_A_TIME)


_BEGINS_AS_ONE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}[Tt ]")
_HOW_A_TIME = (
    "A date and time with its offset from UTC is needed, as in RFC 3339, for example "
    "2027-03-01T00:00:00Z. In an address, a + is written %2B."
)
Moment = Annotated[AwareDatetime, WrapValidator(_date_and_time)]
PAGE_PLANS = 100
_LINKS = {
    operation: {"operationId": operation, "parameters": {"plan_id": "$response.body#/plan_id"}}
    for operation in ("read_plan", "read_plan_loads", "read_plan_stock", "read_plan_manifest")
}


@router.post(
    "/v1/plans",
    operation_id="create_plan",
    summary="Ask for a plan",
    description=(
        "Checks the whole request, stores it, and solves it in the background. The answer is 202 "
        "at once. With `Prefer: wait=N` the service waits up to N seconds and answers 201 with "
        "the outcome if there is one by then. A restart loses no request that was answered with "
        "202."
    ),
    status_code=202,
    response_model=PlanResourceAnswer,
    responses={
        **work_answers(
            PlanResourceAnswer,
            what="The plan.",
            ready="The plan with its outcome, ready within the wait.",
            accepted="Accepted: the request is stored and waits to be solved, or is being solved.",
            links=_LINKS,
        ),
        **problems(*EVERY_BODY, "idempotency_key_reused", "queue_full", "shutting_down"),
    },
    dependencies=[JSON_ONLY],
    openapi_extra=takes_json("PlanRequest", {"smallest": SMALLEST_REQUEST}),
)
async def create_plan(
    request: Request,
    wiring: Wired,
    _prefer: Annotated[
        str | None,
        Header(
            alias="Prefer",
            description="`wait=N`: seconds to wait for the outcome (RFC 7240).",
            examples=["wait=30"],
        ),
    ] = None,
    key: IdempotencyKey = None,
) -> Response:
    """Store a request and wait for its outcome as long as the caller prefers."""
    accepted = await begun_once(
        request,
        wiring,
        key,
        begin=lambda body, named: _accept(wiring, body, named),
        again=lambda plan_id: begun_plan(wiring, plan_id),
    )
    return await accepted_answer(request, wiring, accepted)


@router.get(
    "/v1/plans",
    operation_id="list_plans",
    summary="List plans",
    description=(
        "All plans, newest first, or those of one reference, of one state, or accepted within a "
        "time. A browser gets a page."
    ),
    response_model=PlanListAnswer,
    responses={**PAGE_TOO, **problems("invalid_request")},
)
def list_plans(
    wiring: Wired,
    media_type: MediaType,
    *,
    reference: Annotated[
        str | None, Query(max_length=200, description="Only plans with this reference.")
    ] = None,
    state: Annotated[PlanStateName | None, Query(description="Only plans in this state.")] = None,
    created_from: Annotated[
        Moment | None,
        Query(
            description="Only plans accepted at this time or later.",
            examples=["2027-03-01T00:00:00Z"],
        ),
    ] = None,
    created_before: Annotated[
        Moment | None, Query(description="Only plans accepted before this time.")
    ] = None,
    limit: Annotated[int, Query(ge=1, le=PAGE_PLANS, description="Plans on one page.")] = 20,
    cursor: Annotated[
        str | None,
        Query(pattern=PLAN_ID_PATTERN, description="`next_cursor` of the page before."),
    ] = None,
) -> Response:
    """One page of the list."""
    found = wiring.store.list(
        tenant_id=wiring.tenant_id,
        before_plan_id=cursor,
        limit=limit + 1,
        reference=reference,
        state=state,
        created_from_ms=_milliseconds(created_from),
        created_before_ms=_milliseconds(created_before),
    )
    page = PlanListAnswer(
        plans=[summary_answer(summary) for summary in found[:limit]],
        next_cursor=found[limit - 1].plan_id if len(found) > limit else None,
    )
    if media_type == HTML:
        made = plan_list_screen(page, reference=reference, state=state, is_first=cursor is None)
        return screen_answer(made)
    return json_answer(page, headers=VARY)


def _accept(wiring: Wiring, body: bytes, key: RequestKey | None) -> PlanSummary:
    if key is None:
        # With a key it may be a plan that is stored already.
        wiring.store.room.require(wiring.tenant_id)
    body, unknown = _with_named_plans(wiring, body)
    try:
        whole = whole_body(wiring, body)
        with whole.faults_as_sent():
            order = read_order(wiring.desks.ask(ORDER + whole.body))
    except RequestFaults as faulty:
        # Which webhooks are sent is a matter of the settings, which desks do not know.
        found = (*faulty.faults, *unknown)
        every = with_webhook_faults(wiring.settings, json.loads(body), found)
        raise RequestFaults(every, left_out=faulty.left_out) from None
    if unknown:
        raise RequestFaults((*unknown, *webhook_faults(wiring.settings, json.loads(body))))
    accepted = wiring.store.accept(
        tenant_id=wiring.tenant_id,
        reference=order.reference,
        solve_seconds=wiring.settings.granted_solve_seconds(order.solve_seconds),
        document=order.document,
        idempotency_key=key,
        webhook_url=asked_webhook(wiring.settings, order.document),
        uses=whole.uses,
    )
    wiring.engine.wake()
    return accepted


def _with_named_plans(wiring: Wiring, body: bytes) -> tuple[bytes, tuple[Fault, ...]]:
    """The body with the former plans that it names, or as it is with faults where one is not."""
    if not any(name in body for name in NAMES):
        return body, ()
    try:
        return json.dumps(with_named_plans(wiring, read_json_object(body))).encode(), ()
    except RequestFaults as error:
        return body, error.faults


def _milliseconds(moment: datetime | None) -> int | None:
    """Milliseconds since 1970-01-01 UTC."""
    return None if moment is None else round(moment.timestamp() * 1000)
