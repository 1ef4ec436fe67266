"""Work done in the background: its body taken, its end awaited, and the answer to whoever asked."""

from collections.abc import Callable
from typing import Any

from fastapi import Request
from pydantic import BaseModel
from starlette.concurrency import run_in_threadpool
from starlette.responses import Response

from service.errors import ServiceProblem
from service.http.answers import written_answer
from service.http.body_room import give_room_back
from service.http.described_headers import READ_AGAIN
from service.http.negotiation import preferred_wait_seconds
from service.http.request_body import read_json_body
from service.http.turnstile import step_aside
from service.routes.plan_documents import find_plan, is_final, plan_text
from service.storage.plans import PlanSummary, StoredPlan
from service.wiring import Wiring

_APPLIED = {
    "Preference-Applied": {
        "description": "The wait that was granted, if one was asked for.",
        "schema": {"type": "string"},
    }
}


def work_answers(
    model: type[BaseModel], *, what: str, ready: str, accepted: str, **more: object
) -> dict[int | str, dict[str, Any]]:
    """The documented answers 201 and 202 of a route that begins work: `what` is at Location."""
    headers = {"Location": {"description": what, "schema": {"type": "string"}}, **_APPLIED}
    return {
        201: {"model": model, "description": ready, "headers": headers, **more},
        202: {
            "model": model,
            "description": accepted,
            "headers": {**headers, **READ_AGAIN},
            **more,
        },
    }


async def work_body(request: Request, wiring: Wiring, *, most_bytes: int | None = None) -> bytes:
    """The body of a request for work; the problem shutting_down where none is begun any more.

    `most_bytes` is a limit of its own, where that is below the one of the settings [byte].
    """
    settings = wiring.settings
    limit_bytes = min(most_bytes or settings.body_limit_bytes, settings.body_limit_bytes)
    body = await read_json_body(
        request, limit_bytes=limit_bytes, limit_seconds=settings.body_seconds
    )
    if wiring.engine.is_stopping():
        raise ServiceProblem("shutting_down", headers={"Retry-After": "5"})
    return body


def step_out(request: Request) -> None:
    """Let others have the place and the room of a request whose body is no longer kept."""
    request.state.body = None
    step_aside(request.scope)
    give_room_back(request.scope)


def granted_wait(request: Request, wiring: Wiring) -> int | None:
    """The wait that a caller prefers, as far as it is granted [s]; None for none."""
    return preferred_wait_seconds(
        request.headers.getlist("prefer"), limit_seconds=wiring.settings.wait_limit_seconds
    )


async def after_wait(
    wiring: Wiring,
    name: str,
    seconds: float | None,
    find: Callable[[Wiring, str], StoredPlan] = find_plan,
) -> StoredPlan:
    """What is stored under a name, once it is final or the time is over [s]."""
    waiter = wiring.completions.expect(name)
    try:
        stored = await run_in_threadpool(find, wiring, name)
        if seconds and seconds > 0 and not is_final(stored):
            await waiter.wait(seconds=seconds)
            stored = await run_in_threadpool(find, wiring, name)
        return stored
    finally:
        wiring.completions.forget(waiter)


def work_answer(text: bytes, *, address: str, final: bool, granted_seconds: int | None) -> Response:
    """201 with what is final, or 202 with the time after which to read it at its address."""
    headers = {"Location": address} | read_again(final=final)
    if granted_seconds is not None:
        headers["Preference-Applied"] = f"wait={granted_seconds}"
    return written_answer(text, status=201 if final else 202, headers=headers)


async def accepted_answer(request: Request, wiring: Wiring, accepted: PlanSummary) -> Response:
    """The answer to whoever asked for a plan, read again only where there may be more of it."""
    step_out(request)
    if accepted.state != "queued" or granted_wait(request, wiring):
        return await plan_answer(request, wiring, accepted.plan_id)
    return work_answer(
        plan_text(StoredPlan(accepted, b"", None, None)),
        address=f"/v1/plans/{accepted.plan_id}",
        final=False,
        granted_seconds=granted_wait(request, wiring),
    )


async def plan_answer(request: Request, wiring: Wiring, plan_id: str) -> Response:
    """The answer to whoever asked for a plan that is stored now."""
    seconds = granted_wait(request, wiring)
    plan = await after_wait(wiring, plan_id, seconds)
    address = f"/v1/plans/{plan_id}"
    return work_answer(
        plan_text(plan), address=address, final=is_final(plan), granted_seconds=seconds
    )


def read_again(*, final: bool) -> dict[str, str]:
    """The header that says when to read again what is not final."""
    return {} if final else {"Retry-After": "2"}
