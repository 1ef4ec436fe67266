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
            description="`lowers`: a plan with a lower peak was found. `raises`, `same_proven`: "
            "proven. `none_found`: none was found, but there may be one. `no_plan`: there is no "
            "plan with it, or it breaks a rule. `not_tried`: the time ended before."
        )
    )
    peak: float | None = Field(description="The peak load of the plan that was found with it.")
    bound: float | None = Field(description="No plan with this step has a lower peak.")
    gain: float | None = Field(description="Today's peak minus the new one.")
    more_than_the_gap: bool = Field(
        description="Whether the change is more than was left unproven of today's peak."
    )


class LimitsThatBindAnswer(StrictModel):
    """What sets the peak load of a plan, and the worth of one step of anything."""

    plan_id: str
    cautions: list[CautionAnswer]
    peak: float
    bound: float
    binding: list[BindingLimitAnswer]
    steps: list[StepAnswer] = Field(
        description="Gains first, then what is not known, then what makes no difference or harm."
    )
    nothing_short_of: str | None = Field(
        description="The step that costs least in the field of those that lower the peak. It is "
        "null if nothing lowers it, or if a cheaper step was not tried."
    )
    nothing_lowers_the_peak: bool = Field(
        description="Whether every step was judged and none lowers the peak."
    )
    not_tried: int = Field(description="How many steps were left when the time ended.")
