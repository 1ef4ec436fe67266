"""What a caller may do with a plan that is not final: cancel it, or finish it early."""

from typing import Any

from fastapi import APIRouter
from starlette.responses import Response

from api_schema.plan_resource import PlanResourceAnswer
from service.errors import ServiceProblem
from service.http.answers import JSON_ONLY, problems, written_answer
from service.http.described_headers import READ_AGAIN
from service.routes.plan_documents import find_plan, is_final, plan_text
from service.routes.plans import PlanId
from service.routes.unchanged import AsRead
from service.routes.waiting import read_again
from service.wiring import Wired, Wiring

router = APIRouter(tags=["plans"], dependencies=[JSON_ONLY])

_TOLD: dict[int | str, dict[str, Any]] = {202: {"headers": dict(READ_AGAIN)}}


@router.post(
    "/v1/plans/{plan_id}/cancel",
    operation_id="cancel_plan",
    summary="Cancel a plan",
    description=(
        "A waiting plan is cancelled at once. If the plan is running, its solve ends within a "
        "second, and then its state is `cancelled`. There will be no outcome. You can safely "
        "cancel again."
    ),
    status_code=202,
    response_model=PlanResourceAnswer,
    responses={**_TOLD, **problems("not_found", "plan_is_final", "changed_since")},
)
def cancel_plan(wiring: Wired, plan_id: PlanId, as_read: AsRead) -> Response:
    """Have a plan end without an outcome."""
    find_plan(wiring, plan_id)
    if not wiring.wishes.cancel(tenant_id=wiring.tenant_id, plan_id=plan_id, only_if=as_read):
        raise ServiceProblem("plan_is_final")
    return _answer(wiring, plan_id)


@router.post(
    "/v1/plans/{plan_id}/finish",
    operation_id="finish_plan",
    summary="Finish a plan early",
    description=(
        "The solve of a running plan ends soon, with the best plan that it has found. If it has "
        "found none yet, it continues until it has one, until it is proven that there is none, or "
        "until its time is over. In an evacuation each party gets its plan first. A refusal then "
        "comes without its `diagnosis`. You can safely ask again. The wish holds where the plan "
        "waits once more, for example after a restart: the new attempt, too, first finds a plan. A "
        "plan that waits without that wish is refused, also one that ran before: ask again when it "
        "runs."
    ),
    status_code=202,
    response_model=PlanResourceAnswer,
    responses={**_TOLD, **problems("not_found", "plan_not_running", "changed_since")},
)
def finish_plan(wiring: Wired, plan_id: PlanId, as_read: AsRead) -> Response:
    """Have a plan end with the best that there is."""
    find_plan(wiring, plan_id)
    if not wiring.wishes.finish(tenant_id=wiring.tenant_id, plan_id=plan_id, only_if=as_read):
        raise ServiceProblem("plan_not_running")
    return _answer(wiring, plan_id)


def _answer(wiring: Wiring, plan_id: str) -> Response:
    """The plan as it is now, with the time after which to read it again where it is not final."""
    plan = find_plan(wiring, plan_id)
    return written_answer(plan_text(plan), status=202, headers=read_again(final=is_final(plan)))
