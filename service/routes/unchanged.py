"""Changes that hold only while the plan is as the caller read it: the header If-Match."""

from typing import Annotated

from fastapi import Depends, Header, Request

from service.errors import ServiceProblem
from service.http.representations import matches
from service.routes.plan_documents import find_plan, plan_text
from service.routes.plans import PlanId
from service.storage.plans import StoredPlan
from service.storage.unchanged_plans import ANYHOW, Condition, as_read
from service.wiring import Wired

_NO_PLAN = b""
"""Only what fits every plan fits this: `*`, or no header at all."""


def require_unchanged(
    request: Request,
    wiring: Wired,
    plan_id: PlanId,
    _if_match: Annotated[
        str | None,
        Header(
            alias="If-Match",
            description="The `ETag` of the plan as you read it at its address. If the plan has "
            "changed since, nothing is done and the answer is 412.",
            examples=['"0c9d1be8a42f0c9d1be8a42f0c9d1be8"'],
        ),
    ] = None,
) -> Condition:
    """What must still be so when the plan is changed.

    Raises the problem changed_since unless If-Match names the plan as it is, or was not sent.
    """
    given = request.headers.getlist("if-match")
    if matches(given, _NO_PLAN):
        return ANYHOW
    plan = find_plan(wiring, plan_id)
    require_match(request, plan)
    return as_read(
        state=plan.summary.state,
        attempt=plan.summary.attempt,
        started_at_ms=plan.summary.started_at_ms,
        progress_document=plan.progress_document,
    )


def require_match(request: Request, plan: StoredPlan) -> None:
    """Raise the problem changed_since unless If-Match names this plan, or was not sent."""
    if not matches(request.headers.getlist("if-match"), plan_text(plan)):
        raise ServiceProblem("changed_since")


UNCHANGED = Depends(require_unchanged)
"""For routes that release a plan."""
AsRead = Annotated[Condition, UNCHANGED]
"""For routes that change a plan: the condition of the change."""
