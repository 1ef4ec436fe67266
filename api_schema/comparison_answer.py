"""The table of a comparison on the wire: a row for the base and for each variant."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from api_schema.choice import ChosenVariantAnswer
from api_schema.difference_answer import InputDifferenceAnswer
from api_schema.figures_answer import PlanFiguresAnswer
from api_schema.plan_resource import PlanId, PlanStateName
from api_schema.strict import Moment, StrictModel

COMPARISON_ID_PATTERN = r"^comparison_[0-9a-hjkmnp-tv-z]{26}$"

ComparisonId = Annotated[
    str,
    Field(pattern=COMPARISON_ID_PATTERN, examples=["comparison_01m894y1x3y07966fb6kk0wj7j"]),
]


class VariantFaultAnswer(StrictModel):
    """One fault of a variant."""

    pointer: str = Field(
        description="JSON Pointer (RFC 6901) into the comparison.",
        examples=["/variants/3/patch/roster/0/pack_cap"],
    )
    code: str = Field(description="The stable code of the fault.", examples=["no_unit"])
    detail: str = Field(description="What is wrong, what is allowed and what to do.")


class ComparisonRowAnswer(StrictModel):
    """One variant and its result. The first row is the base."""

    name: str
    edits: list[str] = Field(description="What the named edits did.", examples=[["roster 6 -> 5"]])
    plan_id: PlanId | None = Field(
        description="The plan of this variant. Equal requests have the same plan. It is null if "
        "the variant is faulty or was not accepted, or its plan was deleted."
    )
    state: PlanStateName | Literal["faulty", "not_accepted", "deleted"] = Field(
        description="The state of the plan. `faulty`: the variant is not a valid request. "
        "`not_accepted`: too many plans were waiting. `deleted`: the plan was there once. "
        "`cancelled` also says that `cancel_beaten` ended it."
    )
    errors: list[VariantFaultAnswer] = Field(
        description="The faults of a faulty variant. Each pointer is into the comparison."
    )
    figures: PlanFiguresAnswer | None = Field(description="Null until there is an outcome.")
    change: dict[str, float] = Field(
        description="Figures that are numbers and differ from the base: the variant minus the base."
    )
    cost_change: dict[str, str] = Field(
        description="Costs that differ from the base: the variant minus the base.",
        examples=[{"cost_total": "-125.00 EUR"}],
    )
    input: list[InputDifferenceAnswer] = Field(
        max_length=500, description="What differs from the base in the request."
    )
    difference: str | None = Field(
        description="Where to read all differences from the base.",
        examples=["/v1/plans/plan_01m894y1x3y07966fb6kk0wj7j/difference?to=plan_01m8"],
    )


class ComparisonAnswer(StrictModel):
    """A comparison. It says what differs, and gives no total score."""

    comparison_id: ComparisonId
    reference: str | None
    created_at: Moment
    done: bool = Field(description="Whether every row is final.")
    chosen: ChosenVariantAnswer | None = Field(
        description="The variant that `choose` asked for. Null if it asked for none."
    )
    rows: list[ComparisonRowAnswer]
