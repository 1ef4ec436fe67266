"""Requirements on the wire: what the expedition needs, with formula and source of each figure."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from api_schema.common_answer import AssumptionAnswer, CautionAnswer
from api_schema.strict import Number, StrictModel

PartName = Literal[
    "energy", "food", "travel", "elevation", "water", "fuel", "air", "consumables", "waste"
]


class InputAnswer(StrictModel):
    """One input of a figure."""

    name: str = Field(examples=["melted"])
    value: Number | str = Field(examples=[2.5])
    unit: str = Field(examples=["L"])
    is_default: bool = Field(
        description="Whether the value is a default because the request does not give it."
    )
    source: str = Field(
        description="Where a default comes from. It is empty for a value that was given."
    )


class RangeAnswer(StrictModel):
    """Between which values a figure likely lies, and what makes it most uncertain."""

    low: Number = Field(examples=[3500.0])
    high: Number = Field(examples=[4700.0])
    most_uncertain: str = Field(
        description="The part or input that widens the range most.", examples=["travel"]
    )


class FigureAnswer(StrictModel):
    """One quantity that the expedition needs."""

    figure_id: str = Field(examples=["water_melted"])
    about: dict[str, str | int] = Field(
        description="What the figure is about: person, place, day, step of the day, and so on. It "
        "is empty for the whole expedition.",
        examples=[{"place_id": "camp-1"}],
    )
    value: Number = Field(description="The value, not rounded.")
    unit: str = Field(examples=["L/person-night"])
    formula: str
    source: str
    status: str = Field(
        description="The status of the source: `read`, `quoted`, `computed`, `memory-unverified` "
        "or `practice`."
    )
    inputs: list[InputAnswer]
    parts: dict[str, Number] = Field(
        description="What a sum is made of, by name and in the figure's unit; empty for others.",
        examples=[{"asleep": 560.0, "travel": 1800.0}],
    )
    range: RangeAnswer | None = Field(description="Null where no range is known.")


class NoticeAnswer(StrictModel):
    """Something found about this expedition, in words."""

    notice_id: str
    about: dict[str, str | int]
    message: str


class RequirementsAnswer(StrictModel):
    """What the expedition needs. Nothing is planned, solved or stored."""

    reference: str | None
    figures: list[FigureAnswer]
    notices: list[NoticeAnswer]
    assumptions: list[AssumptionAnswer]
    cautions: list[CautionAnswer]
