"""What a caller may do with a plan that there is: cancel it, finish it early, or delete it."""

from fastapi import APIRouter
from starlette.responses import Response

from api_schema.plan_resource import PlanResourceAnswer
from service.errors import ServiceProblem
from service.http.answers import JSON_ONLY, problems, written_answer
from service.routes.plan_documents import find_plan, plan_text
from service.routes.plans import PlanId
from service.routes.unchanged import UNCHANGED
from service.storage.plan_ids import is_plan_id
from service.wiring import Wired

router = APIRouter(tags=["plans"], dependencies=[JSON_ONLY])


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
    responses=problems("not_found", "plan_is_final", "changed_since"),
    dependencies=[UNCHANGED],
)
def cancel_plan(wiring: Wired, plan_id: PlanId) -> Response:
    """Have a plan end without an outcome."""
    find_plan(wiring, plan_id)
    if not wiring.wishes.cancel(tenant_id=wiring.tenant_id, plan_id=plan_id):
        raise ServiceProblem("plan_is_final")
    return written_answer(plan_text(find_plan(wiring, plan_id)), status=202)


@router.post(
    "/v1/plans/{plan_id}/finish",
    operation_id="finish_plan",
    summary="Finish a plan early",
    description=(
        "The solve of a running plan ends soon, with the best plan that it has found. If it has "
        "found none yet, it continues until it has one or its time is over. You can safely ask "
        "again."
    ),
    status_code=202,
    response_model=PlanResourceAnswer,
    responses=problems("not_found", "plan_not_running", "changed_since"),
    dependencies=[UNCHANGED],
)
def finish_plan(wiring: Wired, plan_id: PlanId) -> Response:
    """Have a plan end with the best that there is."""
    find_plan(wiring, plan_id)
    if not wiring.wishes.finish(tenant_id=wiring.tenant_id, plan_id=plan_id):
        raise ServiceProblem("plan_not_running")
    return written_answer(plan_text(find_plan(wiring, plan_id)), status=202)


@router.delete(
    "/v1/plans/{plan_id}",
    operation_id="delete_plan",
    summary="Delete a plan",
    description=(
        "Removes the plan, its request, its outcome and its events for good, with everything that "
        "they say about people. If a solve is running, it ends."
    ),
    status_code=204,
    response_class=Response,
    responses={
        204: {"description": "The plan is gone."},
        **problems("not_found", "changed_since"),
    },
    dependencies=[UNCHANGED],
)
def delete_plan(wiring: Wired, plan_id: PlanId) -> Response:
    """Remove one plan."""
    if not is_plan_id(plan_id) or not wiring.store.delete(
        tenant_id=wiring.tenant_id, plan_id=plan_id
    ):
        raise ServiceProblem("not_found", "There is no plan with this plan_id.")
    return Response(status_code=204)
