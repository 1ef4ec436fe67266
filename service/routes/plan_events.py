"""What happens to a plan, sent as it happens (server-sent events, WHATWG HTML, section 9.2).

Each look asks from the event that the caller has, and not from the next one: a plan without that
one is not the plan that the caller has followed. It was deleted, or the database was restored.
"""

import time
from collections.abc import AsyncIterator, Sequence
from typing import Annotated, cast

from fastapi import APIRouter, Depends, Header, Request
from starlette.concurrency import run_in_threadpool
from starlette.responses import Response, StreamingResponse

from api_schema.plan_events import PlanEventAnswer, PlanEventName
from api_schema.plan_resource import ProgressAnswer
from service.http.answers import answers_in, problems
from service.http.callers import answered_caller
from service.routes.plan_documents import find_plan, is_final, moment
from service.routes.plans import PlanId
from service.storage.events import LAST_KINDS, PlanEvent
from service.wiring import Wired, Wiring

EVENT_STREAM = "text/event-stream"
_SILENCE_SECONDS = 10.0
"""Time after which a comment is sent, so that nobody on the way takes the connection for dead."""
_RETRY_MS = 1000
_EVENT_SCHEMA = "#/components/schemas/PlanEventAnswer"
_MOST_DIGITS = 9

router = APIRouter(
    tags=["plans"],
    dependencies=[Depends(answers_in(EVENT_STREAM))],
)


async def stream_place(request: Request, wiring: Wired) -> AsyncIterator[None]:
    """A place for a stream, from before the plan is looked up until the stream has ended."""
    with wiring.stream_room.place(answered_caller(request.scope)):
        yield


@router.get(
    "/v1/plans/{plan_id}/events",
    operation_id="read_plan_events",
    summary="Follow a plan",
    description=(
        "Sends everything that has happened to the plan, and then everything that happens, as "
        "server-sent events until the plan is final. The `data` of an event is a `PlanEventAnswer` "
        "as JSON. The stream ends after at most a minute. To continue, send the header "
        "`Last-Event-ID` with the last event that you have. This also works after a restart of the "
        "service. If the plan is final and you have all of its events, the answer is 204. If you "
        "send a number that the plan has not reached, you get all of its events: the database may "
        "have been restored. If the plan is deleted, the stream ends. `GET /v1/limits` says how "
        "many streams may be open. Beyond that the answer is 503 `too_busy`. Come again after the "
        "time in `Retry-After`, or read the plan."
    ),
    dependencies=[Depends(stream_place)],
    response_class=Response,
    responses={
        200: {
            "description": "Events.",
            "content": {EVENT_STREAM: {"schema": {"x-data-of-an-event": {"$ref": _EVENT_SCHEMA}}}},
        },
        204: {"description": "The plan is final, and you have all of its events."},
        **problems("not_found", "invalid_request", "too_busy"),
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
    plan = await run_in_threadpool(find_plan, wiring, plan_id, with_outcome=False)
    after = _number(last_event_id)
    events = await _read(wiring, plan_id, after)
    if events is None:
        after = 0
        events = await _read(wiring, plan_id, after)
    if not events and is_final(plan):
        return Response(status_code=204)
    return StreamingResponse(
        _stream(wiring, plan_id, after, events or []),
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
    wiring: Wiring, plan_id: str, after: int, events: Sequence[PlanEvent]
) -> AsyncIterator[bytes]:
    yield f"retry: {_RETRY_MS}\n\n".encode()
    ends_at = time.monotonic() + wiring.settings.wait_limit_seconds
    for event in events:
        yield event_text(plan_id, event)
        if event.kind in LAST_KINDS:
            return
    number = events[-1].number if events else after
    with wiring.followers.follow(plan_id, after=number) as follower:
        while (left := ends_at - time.monotonic()) > 0:
            heard = await follower.hear(seconds=min(left, _SILENCE_SECONDS))
            if heard is None:
                # The reader comes again, and goes on where this stream broke off or hears why not.
                return
            for event in heard:
                yield event_text(plan_id, event)
                if event.kind in LAST_KINDS:
                    return
            if not heard:
                yield b": still here\n\n"


async def _read(wiring: Wiring, plan_id: str, after: int) -> list[PlanEvent] | None:
    """The events after the one of that number; None where the plan has no event of that number."""
    number = max(0, after - 1)
    found = await run_in_threadpool(
        wiring.events.after, tenant_id=wiring.tenant_id, plan_id=plan_id, number=number
    )
    if after > 0 and not found:
        return None
    return [event for event in found if event.number > after]


def _number(last_event_id: str | None) -> int:
    """The number in the header; one that we have never sent means that nothing is known."""
    text = last_event_id or ""
    return int(text) if text.isascii() and text.isdigit() and len(text) <= _MOST_DIGITS else 0
