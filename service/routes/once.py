"""Work that is begun once for a key: whoever sends a request again gets what it began before."""

import hashlib
from collections.abc import Callable
from typing import Annotated, TypeVar

from fastapi import Header, Request
from starlette.concurrency import run_in_threadpool

from service.http.parameter_faults import KEY_PATTERN
from service.routes.waiting import work_body
from service.storage.idempotency import RequestKey
from service.storage.plans import PlanSummary
from service.wiring import Wiring

IdempotencyKey = Annotated[
    str | None,
    Header(
        alias="Idempotency-Key",
        description="A name of your choice for this request. If you send the same key with the "
        "same body to the same address again within 24 hours, nothing is begun a second time: you "
        "get what was begun, whatever else was changed or deleted meanwhile. A body that says the "
        "same in another order is judged again first. The key ends when you delete what was begun; "
        "that of a comparison ends with the plan of its base.",
        pattern=KEY_PATTERN,
        examples=["booking-1001-attempt-1"],
    ),
]
"""The header by which work is begun once, however often it is asked for."""

WorkT = TypeVar("WorkT")


async def begun_once(
    request: Request,
    wiring: Wiring,
    key: str | None,
    *,
    begin: Callable[[bytes, RequestKey | None], WorkT],
    again: Callable[[str], WorkT | None],
    most_bytes: int | None = None,
) -> WorkT:
    """What the body of a request begins, or what it began when it came before with this key.

    A request that comes again as it was sent is known before anything that it names is looked up,
    before it is judged, and before there has to be room for it. So no change of these keeps it
    from its answer. `again` gives what was begun by the name of its plan, None where it is gone
    meanwhile or was not begun to the end; then it is begun as if it came first.
    """
    body = await work_body(request, wiring, most_bytes=most_bytes)
    address: str = request.scope["path"]

    def work() -> WorkT:
        if key is None:
            return begin(body, None)
        sent = sent_digest(address, body)
        plan_id = wiring.begun.plan_of(tenant_id=wiring.tenant_id, key=key, sent_digest=sent)
        known = None if plan_id is None else again(plan_id)
        return begin(body, RequestKey(key, sent)) if known is None else known

    return await run_in_threadpool(work)


def sent_digest(address: str, body: bytes) -> str:
    """SHA-256 of a request as it was sent, in hexadecimal; its body is no longer packed."""
    # A digest of the address has one length, so that it cannot run into the body.
    digest = hashlib.sha256(hashlib.sha256(address.encode()).digest())
    digest.update(body)
    return digest.hexdigest()


def begun_plan(wiring: Wiring, plan_id: str) -> PlanSummary | None:
    """What is known of a plan that was begun, None where it is gone."""
    plan = wiring.store.read(tenant_id=wiring.tenant_id, plan_id=plan_id, with_outcome=False)
    return None if plan is None else plan.summary
