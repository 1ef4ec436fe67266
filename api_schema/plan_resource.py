"""A plan as a resource: its state, and its outcome once there is one."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import AwareDatetime, Field

from api_schema.plan_answer import (
    CautionAnswer,
    FlightAnswer,
    OutcomeAnswer,
    StockAnswer,
    TripAnswer,
)
from api_schema.strict import StrictModel

PLAN_ID_PATTERN = r"^plan_[0-9a-hjkmnp-tv-z]{26}$"

PlanId = Annotated[
    str, Field(pattern=PLAN_ID_PATTERN, examples=["plan_01m894y1x3y07966fb6kk0wj7j"])
]


class PlanSummaryAnswer(StrictModel):
    """What a list shows of a plan."""

    plan_id: PlanId
    reference: str | None = Field(description="The caller's own reference, as it was sent.")
    state: Literal["queued", "running", "done", "failed"] = Field(
        description="queued and running will change; done and failed are final."
    )
    outcome_kind: Literal["solved", "infeasible", "no_plan_in_time", "failed"] | None = Field(
        description="Null until the state is final."
    )
    created_at: AwareDatetime
    started_at: AwareDatetime | None = Field(description="When its latest attempt began.")
    finished_at: AwareDatetime | None
    attempt: int = Field(ge=0, description="How often its solve was started.")


class PlanResourceAnswer(PlanSummaryAnswer):
    """A plan with everything that is known of it now."""

    progress: dict[str, Any] | None = Field(description="How far a running solve has come.")
    outcome: Annotated[OutcomeAnswer, Field(discriminator="outcome")] | None = Field(
        description="Null until the state is final."
    )


class PlanListAnswer(StrictModel):
    """A part of the list of plans, newest first."""

    plans: list[PlanSummaryAnswer] = Field(max_length=100)
    next_cursor: str | None = Field(
        description="Send it back as `cursor` for the plans that follow; null at the end."
    )


class CautionsAnswer(StrictModel):
    """What to be careful of with a plan, or where there is none."""

    plan_id: PlanId
    reference: str | None
    cautions: list[CautionAnswer]


class LoadsAnswer(StrictModel):
    """The loads of everybody on every trip of a plan."""

    plan_id: PlanId
    reference: str | None
    cautions: list[CautionAnswer]
    trips: list[TripAnswer]


class ManifestAnswer(StrictModel):
    """Who and what is on every flight of a plan."""

    plan_id: PlanId
    reference: str | None
    cautions: list[CautionAnswer]
    pilot: str = Field(description="Who decides about a flight.")
    flights: list[FlightAnswer]


class StockListAnswer(StrictModel):
    """What stands at every place after every night of a plan."""

    plan_id: PlanId
    reference: str | None
    cautions: list[CautionAnswer]
    stock: list[StockAnswer]
