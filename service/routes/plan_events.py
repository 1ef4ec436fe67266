"""What happens to a plan, sent as it happens (server-sent events, WHATWG HTML, section 9.2)."""

import asyncio
import time
from collections.abc import AsyncIterator
from typing import Annotated, cast

from fastapi import APIRouter, Depends, Header
from starlette.concurrency import run_in_threadpool
from starlette.responses import Response, StreamingResponse

from api_schema.plan_events import PlanEventAnswer, PlanEventName
from api_schema.plan_resource import ProgressAnswer
from service.errors import ServiceProblem
from service.http.answers import answers_in, problems
from service.routes.plan_documents import find_plan, moment
from service.routes.plans import PlanId
from service.storage.events import LAST_KINDS, PlanEvent
from service.wiring import Wired, Wiring

EVENT_STREAM = "text/event-stream"
_LOOK_SECONDS = 0.5
_SILENCE_SECONDS = 10.0
"""Time after which a comment is sent, so that nobody on the way takes the connection for dead."""
_RETRY_MS = 1000
_EVENT_SCHEMA = "#/components/schemas/PlanEventAnswer"
_MOST_DIGITS = 9

router = APIRouter(
    tags=["plans"],
    dependencies=[Depends(answers_in(EVENT_STREAM))],
)


@router.get(
    "/v1/plans/{plan_id}/events",
    operation_id="read_plan_events",
    summary="Follow a plan",
    description=(
        "Sends everything that has happened to the plan, and then everything that happens, as "
        "server-sent events until the plan is final. The `data` of an event is a `PlanEventAnswer` "
        "as JSON. The stream ends after at most a minute. To continue, send the header "
        "`Last-Event-ID` with the last event that you have. This also works after a restart of the "
        "service. If there is nothing left to send, the answer is 204."
    ),
    response_class=Response,
    responses={
        200: {
            "description": "Events.",
            "content": {EVENT_STREAM: {"schema": {"x-data-of-an-event": {"$ref": _EVENT_SCHEMA}}}},
        },
        204: {"description": "The plan is final, and you have all of its events."},
        **problems("not_found", "invalid_request"),
    },
)
async def read_plan_events(
    wiring: Wired,
    plan_id: PlanId,
    last_event_id: Annotated[
        str | None,
        Header(description="Number of the last event that you have.", examples=["4"]),
    ] = None,
) -> Response:
    """A stream of the events after the one that the caller names."""
    await run_in_threadpool(find_plan, wiring, plan_id)
    after = _number(last_event_id)
    events = await _read(wiring, plan_id, after)
    if not events and await _is_over(wiring, plan_id, after):
        return Response(status_code=204)
    return StreamingResponse(
        _stream(wiring, plan_id, after, events),
        media_type=EVENT_STREAM,
        headers={"Cache-Control": "no-store", "X-Accel-Buffering": "no"},
    )


def event_text(plan_id: str, event: PlanEvent) -> bytes:
    """One event as it goes over the wire."""
    told = None if event.document is None else ProgressAnswer.model_validate_json(event.document)
    answer = PlanEventAnswer(
        plan_id=plan_id,
        number=event.number,
        event=cast(PlanEventName, event.kind),
        at=moment(event.at_ms),
        progress=told,
    )
    return f"id: {event.number}\nevent: {event.kind}\ndata: {answer.model_dump_json()}\n\n".encode()


async def _stream(
    wiring: Wiring, plan_id: str, after: int, events: list[PlanEvent]
) -> AsyncIterator[bytes]:
    yield f"retry: {_RETRY_MS}\n\n".encode()
    ends_at = time.monotonic() + wiring.settings.wait_limit_seconds
    said_at = time.monotonic()
    while True:
        for event in events:
            yield event_text(plan_id, event)
            after, said_at = event.number, time.monotonic()
            if event.kind in LAST_KINDS:
                return
        if time.monotonic() >= ends_at or wiring.engine.is_stopping():
            return
        if time.monotonic() - said_at > _SILENCE_SECONDS:
            said_at = time.monotonic()
            yield b": still here\n\n"
        await asyncio.sleep(_LOOK_SECONDS)
        try:
            events = await _read(wiring, plan_id, after)
        except ServiceProblem:
            # The reader comes again and goes on where this stream broke off.
            return


async def _read(wiring: Wiring, plan_id: str, after: int) -> list[PlanEvent]:
    return await run_in_threadpool(
        wiring.events.after, tenant_id=wiring.tenant_id, plan_id=plan_id, number=after
    )


async def _is_over(wiring: Wiring, plan_id: str, after: int) -> bool:
    """Whether the last event of the plan is known to the caller."""
    known = await _read(wiring, plan_id, max(0, after - 1))
    return not known or known[-1].kind in LAST_KINDS


def _number(last_event_id: str | None) -> int:
    """The number in the header; one that we have never sent means that nothing is known."""
    text = last_event_id or ""
    return int(text) if text.isascii() and text.isdigit() and len(text) <= _MOST_DIGITS else 0
