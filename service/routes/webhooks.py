"""Webhooks: how the delivery of one stands, and sending it again."""

from fastapi import APIRouter
from starlette.responses import Response

from api_schema.webhook import WebhookAnswer
from service.errors import ServiceProblem
from service.http.answers import JSON_ONLY, json_answer, problems
from service.routes.plan_documents import find_plan, is_final, moment
from service.routes.plans import PlanId
from service.wiring import Wired, Wiring

router = APIRouter(tags=["plans"], dependencies=[JSON_ONLY])


@router.get(
    "/v1/plans/{plan_id}/webhook",
    operation_id="read_webhook",
    summary="Read the state of a plan's webhook",
    description=(
        "Whether your server has received the note, how often the service tried to send it, and "
        "why the last attempt failed. A plan whose request has no `webhook_url` has none."
    ),
    response_model=WebhookAnswer,
    responses=problems("not_found"),
)
def read_webhook(wiring: Wired, plan_id: PlanId) -> Response:
    """One delivery."""
    return json_answer(_answer(wiring, plan_id))


@router.post(
    "/v1/plans/{plan_id}/webhook",
    operation_id="send_webhook_again",
    summary="Send the webhook of a plan again",
    description=(
        "Sends a webhook once more that was delivered or given up, with the same id. If it is "
        "still being sent, this changes nothing."
    ),
    status_code=202,
    response_model=WebhookAnswer,
    responses=problems("not_found", "no_result_yet"),
)
def send_webhook_again(wiring: Wired, plan_id: PlanId) -> Response:
    """Make one delivery due again."""
    _answer(wiring, plan_id)
    if not is_final(find_plan(wiring, plan_id)):
        raise ServiceProblem("no_result_yet", headers={"Retry-After": "2"})
    wiring.webhooks.send_again(tenant_id=wiring.tenant_id, plan_id=plan_id)
    wiring.courier.wake()
    return json_answer(_answer(wiring, plan_id), status=202)


def _answer(wiring: Wiring, plan_id: str) -> WebhookAnswer:
    find_plan(wiring, plan_id)
    standing = wiring.webhooks.of_plan(tenant_id=wiring.tenant_id, plan_id=plan_id)
    if standing is None:
        raise ServiceProblem("not_found", "The request of this plan has no webhook_url.")
    return WebhookAnswer.model_validate(
        {
            "plan_id": plan_id,
            "webhook_id": standing.webhook_id,
            "url": standing.url,
            "state": standing.state,
            "attempts": standing.attempts,
            "last_attempt_at": None if standing.last_at_ms is None else moment(standing.last_at_ms),
            "next_attempt_at": None if standing.next_at_ms is None else moment(standing.next_at_ms),
            "last_status": standing.last_status,
            "last_fault": standing.last_fault,
        }
    )
