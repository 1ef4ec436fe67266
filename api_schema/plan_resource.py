"""A plan as a resource: its state, and its outcome once there is one."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from api_schema.common_answer import CautionAnswer
from api_schema.flight_answer import FlightAnswer
from api_schema.load_answer import TripAnswer
from api_schema.plan_answer import OutcomeAnswer
from api_schema.stock_answer import StockAnswer
from api_schema.strict import Moment, StrictModel

PLAN_ID_PATTERN = r"^plan_[0-9a-hjkmnp-tv-z]{26}$"

CAUTIONS_FIRST = (
    "The plan's cautions, to be shown with it; the first says so where no rule of glaciers was "
    "asked."
)

PlanId = Annotated[
    str, Field(pattern=PLAN_ID_PATTERN, examples=["plan_01m894y1x3y07966fb6kk0wj7j"])
]


PlanStateName = Literal["queued", "running", "done", "failed", "cancelled"]
OutcomeKindName = Literal["solved", "infeasible", "no_plan_in_time", "failed"]


class ProgressAnswer(StrictModel):
    """How far a running solve has come."""

    stage: str = Field(
        description="What was done last. After `first plan` a re-plan has a plan that changes "
        "little, and `finish` gives it from then on.",
        examples=["packing"],
    )
    peak: float | None = Field(
        description="The peak of the best plan so far; null before there is a plan."
    )
    bound: float = Field(description="The lower bound: no plan has a lower peak.")
    seconds: float = Field(description="Time since the solve began.")


class PlanSummaryAnswer(StrictModel):
    """What a list shows about a plan."""

    plan_id: PlanId
    reference: str | None = Field(description="Your own reference, as it was sent.")
    state: PlanStateName = Field(
        description="`queued` and `running` will change. `done`, `failed` and `cancelled` will not."
    )
    outcome_kind: OutcomeKindName | None = Field(description="It is null until the state is final.")
    created_at: Moment
    started_at: Moment | None = Field(description="When the latest attempt began.")
    finished_at: Moment | None
    attempt: int = Field(ge=0, description="How often the solve was started.")
    wire_version: str | None = Field(
        description="The version of this interface with which the outcome was written.",
        examples=["v1-2f0c9d1be8a4"],
    )
    rules_version: str | None = Field(
        description="The version of the rules by which the plan was made and checked. `GET "
        "/v1/plans/{plan_id}/check` checks it again under today's rules.",
        examples=["8d2e4b17c6f0"],
    )


class PlanResourceAnswer(PlanSummaryAnswer):
    """A plan with everything that is known about it now."""

    progress: ProgressAnswer | None = Field(description="The progress of a running solve.")
    outcome: Annotated[OutcomeAnswer, Field(discriminator="outcome")] | None = Field(
        description="It is null until the state is final, and always null for a cancelled plan."
    )


class PlanListAnswer(StrictModel):
    """One page of the list of plans, newest first."""

    plans: list[PlanSummaryAnswer] = Field(max_length=100)
    next_cursor: str | None = Field(
        description="Send this as `cursor` to get the next plans. It is null at the end."
    )


class CautionsAnswer(StrictModel):
    """What to be careful of with a plan, or where there is none."""

    plan_id: PlanId
    reference: str | None
    cautions: list[CautionAnswer] = Field(description=CAUTIONS_FIRST)


class LoadsAnswer(StrictModel):
    """The loads of everybody on every trip of a plan."""

    plan_id: PlanId
    reference: str | None
    cautions: list[CautionAnswer] = Field(description=CAUTIONS_FIRST)
    trips: list[TripAnswer]


class ManifestAnswer(StrictModel):
    """Who and what is on every flight of a plan."""

    plan_id: PlanId
    reference: str | None
    cautions: list[CautionAnswer] = Field(description=CAUTIONS_FIRST)
    pilot: str = Field(description="Who decides about a flight.")
    flights: list[FlightAnswer]


class StockListAnswer(StrictModel):
    """What is at every place after every night of a plan."""

    plan_id: PlanId
    reference: str | None
    cautions: list[CautionAnswer] = Field(description=CAUTIONS_FIRST)
    stock: list[StockAnswer]
