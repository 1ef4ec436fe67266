"""What binds a plan, and what one step more or less of anything would change."""

from typing import Literal

from pydantic import Field

from api_schema.common_answer import CautionAnswer
from api_schema.diagnosis_answer import ChangeKindName
from api_schema.strict import StrictModel


class BindingLimitAnswer(StrictModel):
    """A cap at the peak."""

    rule_id: str
    person_id: str
    where: dict[str, str | int] = Field(description="The trip: day, step, from and to.")
    load_kg: float
    cap_kg: float
    load_fraction: float


class StepAnswer(StrictModel):
    """One step, and what it does to the peak load."""

    kind: ChangeKindName
    text: str = Field(examples=["raise the pack cap of lead by 1.0 kg"])
    about: dict[str, str | int]
    verdict: Literal["lowers", "raises", "same_proven", "none_found", "no_plan", "not_tried"] = (
        Field(
            description="`lowers`: a plan with a lower peak was found. `raises`: it is proven that "
            "the peak rises. `same_proven`: it is proven that the peak cannot get lower. "
            "`none_found`: no plan with a lower peak was found, but there may be one. `no_plan`: "
            "with this step there is no plan, or it breaks a rule. `not_tried`: the time ended "
            "first."
        )
    )
    peak: float | None = Field(
        description="The peak load of the plan that was found with this step."
    )
    bound: float | None = Field(description="No plan with this step has a lower peak.")
    gain: float | None = Field(description="Today's peak minus the new one.")
    more_than_the_gap: bool = Field(
        description="Whether the peak changes by more than the gap of today's peak."
    )
    reason: str | None = Field(description="Why there is no plan with this step.")


class LimitsThatBindAnswer(StrictModel):
    """What sets the peak load of a plan, and what one step more or less of a thing changes."""

    plan_id: str
    cautions: list[CautionAnswer]
    peak: float
    bound: float
    binding: list[BindingLimitAnswer]
    steps: list[StepAnswer] = Field(
        description="Steps that lower the peak come first, then those that are not known, then "
        "those that change nothing or do harm."
    )
    nothing_short_of: str | None = Field(
        description="Of the steps that lower the peak, the one that costs least in the field. It "
        "is null if nothing lowers it, or if a cheaper step was not tried."
    )
    nothing_lowers_the_peak: bool = Field(
        description="Whether every step was judged and none lowers the peak."
    )
    not_tried: int = Field(description="How many steps were not tried in time.")
