"""Why there is no plan: requirements that clash, changes that help, and the nearest plan."""

from typing import Literal

from pydantic import Field

from api_schema.clash_answer import BreakageAnswer, ClashMemberAnswer
from api_schema.strict import StrictModel

ChangeKindName = Literal[
    "send_ahead",
    "take_more",
    "leave",
    "cap",
    "sled",
    "person",
    "carry",
    "night_less",
    "night_more",
    "reserve",
]


class ChangeAnswer(StrictModel):
    """One change of the request."""

    kind: ChangeKindName
    text: str = Field(examples=["raise the pack cap of third by 1.6 kg"])
    amount: int | None = Field(description="The amount of the change, if it has one.")
    unit: str | None = Field(examples=["g"])
    about: dict[str, str | int] = Field(
        description="What is changed. It has the person, unit, sled, place and leg that apply."
    )


class ChangesThatHelpAnswer(StrictModel):
    """Changes that together allow a plan. A plan was found with them, and it passed the check."""

    changes: list[ChangeAnswer] = Field(description="One change, or two if no single change helps.")
    is_decision: bool = Field(
        description="Whether this is the leader's decision. Reserves are, and they come last."
    )


class DiagnosisAnswer(StrictModel):
    """What was found in the time that was left."""

    clash: list[ClashMemberAnswer] = Field(
        description="Requirements that no plan can keep together. There may be more such sets. It "
        "is empty if no clash was found with divisible loads."
    )
    none_can_be_left_out: bool = Field(
        description="Whether each requirement of the clash is needed for it."
    )
    held_fixed: list[str] = Field(
        description="What the clash takes for granted, in words.", examples=[["the calendar"]]
    )
    changes_that_help: list[ChangesThatHelpAnswer] = Field(
        description="Each entry by itself allows a plan. The one that costs least in the field "
        "comes first."
    )
    tried: int = Field(description="How many changes were judged.")
    not_tried: int = Field(description="How many changes that may help were not tried in time.")
    nearest_plan_breaks: list[BreakageAnswer] = Field(
        description="What the nearest plan breaks, and by how much. It is only a diagnosis. Nobody "
        "may follow that plan, so it is not given. The list is empty if no such plan was found."
    )
