"""Changes that hold only while the plan is as the caller read it: the header If-Match."""

from typing import Annotated

from fastapi import Depends, Header, Request

from service.errors import ServiceProblem
from service.http.representations import matches
from service.routes.plan_documents import find_plan, plan_text
from service.routes.plans import PlanId
from service.wiring import Wired


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
) -> None:
    """Raise the problem changed_since unless If-Match names the plan as it is, or was not sent."""
    given = request.headers.getlist("if-match")
    if given and not matches(given, plan_text(find_plan(wiring, plan_id))):
        raise ServiceProblem("changed_since")


UNCHANGED = Depends(require_unchanged)
"""For routes that change a plan or release it."""
