"""What differs between two plans on the wire: in their requests and results."""

from __future__ import annotations

from typing import Literal

from pydantic import ConfigDict, Field

from api_schema.figures_answer import PlanFiguresAnswer
from api_schema.ledger_difference_answer import LoadDifferenceAnswer, TakenDifferenceAnswer
from api_schema.plan_resource import PlanId
from api_schema.strict import StrictModel


class InputDifferenceAnswer(StrictModel):
    """One part of the request that differs. Entries of lists are matched by their ids."""

    model_config = ConfigDict(validate_by_name=True)

    where: str = Field(
        description="The path of the part. It has the id of a list entry instead of its number.",
        examples=["/roster/third/pack_cap"],
    )
    kind: Literal["added", "removed", "changed"]
    from_: str | None = Field(
        alias="from", description="The part in the first request, as JSON.", examples=['"20 kg"']
    )
    to: str | None = Field(
        description="The part in the second request, as JSON.", examples=['"17 kg"']
    )


class FigureDifferenceAnswer(StrictModel):
    """One figure that differs between the two plans."""

    model_config = ConfigDict(validate_by_name=True)

    figure: str = Field(examples=["peak"])
    from_: str | int | float | None = Field(alias="from")
    to: str | int | float | None
    change: float | None = Field(description="The second minus the first, if both are numbers.")


class DifferenceAnswer(StrictModel):
    """What differs between two plans. It does not say which is better."""

    plan_id: PlanId
    to_plan_id: PlanId
    input: list[InputDifferenceAnswer] = Field(max_length=500)
    input_left_out: int = Field(description="How many more parts of the request differ.")
    people_left: list[str] = Field(description="Who takes part in the first plan only.")
    people_joined: list[str] = Field(description="Who takes part in the second plan only.")
    figures: list[FigureDifferenceAnswer]
    taken: list[TakenDifferenceAnswer] = Field(
        description="Things and purchases. It is empty unless both plans are solved."
    )
    loads: list[LoadDifferenceAnswer] = Field(
        description="It is empty unless both plans are solved."
    )
    figures_from: PlanFiguresAnswer
    figures_to: PlanFiguresAnswer
