"""What happens to a plan, one event at a time."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from api_schema.plan_resource import PlanId, ProgressAnswer
from api_schema.strict import Moment, StrictModel

PlanEventName = Literal[
    "queued",
    "running",
    "progress",
    "requeued",
    "finishing",
    "cancelling",
    "done",
    "failed",
    "cancelled",
]


class PlanEventAnswer(StrictModel):
    """One thing that happened to a plan. It is the `data` of one event of the stream."""

    plan_id: PlanId
    number: int = Field(ge=1, description="Counts from 1 within the plan. It is the event's id.")
    event: PlanEventName = Field(
        description="`requeued`: the solve was interrupted or crashed, and begins again. "
        "`finishing` and `cancelling`: a caller asked for it. After `done`, `failed` or "
        "`cancelled` nothing more happens.",
        examples=["progress"],
    )
    at: Moment
    progress: ProgressAnswer | None = Field(
        description="The progress, if `event` is `progress`. Otherwise null."
    )
