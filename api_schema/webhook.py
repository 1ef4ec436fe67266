"""Notes to a caller's own server that a plan is final: what is sent, and the state of delivery."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from api_schema.plan_resource import OutcomeKindName, PlanId
from api_schema.strict import Moment, StrictModel

WebhookStateName = Literal["waiting", "due", "delivered", "given_up"]
WebhookFaultName = Literal[
    "address_refused",
    "no_address",
    "no_connection",
    "no_answer_in_time",
    "refused_by_receiver",
    "internal_error",
]
FinalStateName = Literal["done", "failed", "cancelled"]


class PlanFinalWebhook(StrictModel):
    """What the service sends when a plan is final. Read the plan itself for its outcome."""

    type: Literal["plan.done", "plan.failed", "plan.cancelled"]
    plan_id: PlanId
    reference: str | None = Field(description="Your own reference, as it was sent.")
    state: FinalStateName
    outcome_kind: OutcomeKindName | None = Field(description="It is null for a cancelled plan.")
    finished_at: Moment


class WebhookAnswer(StrictModel):
    """The state of delivery of a plan's webhook."""

    plan_id: PlanId
    webhook_id: str = Field(
        description="The id in the header `webhook-id`. It is the same at every attempt.",
        examples=["webhook_01m894y1x3y07966fb6kk0wj7j"],
    )
    url: str = Field(description="Where it goes, as the request gave it.")
    state: WebhookStateName = Field(
        description="`waiting`: the plan is not final yet. `due`: it is being sent, or will be "
        "sent again. `delivered`: your server answered with a status from 200 to 299. "
        "`given_up`: every attempt failed."
    )
    attempts: int = Field(ge=0)
    last_attempt_at: Moment | None
    next_attempt_at: Moment | None = Field(description="It is null unless the state is `due`.")
    last_status: int | None = Field(description="The status that your server answered last.")
    last_fault: WebhookFaultName | None = Field(
        description="Why the last attempt failed. `address_refused`: the host leads to an address "
        "that is not public. `no_address`: the host is not known. `no_connection`: no server "
        "answers there, or its certificate is not valid. `refused_by_receiver`: your server "
        "answered with another status. Redirects are not followed. `internal_error`: the service "
        "could not make the message, and the fault is ours."
    )
