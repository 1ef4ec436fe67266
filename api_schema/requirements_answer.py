"""Requirements on the wire: what the trip needs, each figure with its formula and source."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from api_schema.plan_answer import AssumptionAnswer, CautionAnswer
from api_schema.strict import Number, StrictModel

PartName = Literal[
    "energy", "food", "travel", "height", "water", "fuel", "air", "consumables", "waste"
]


class InputAnswer(StrictModel):
    """One input of a figure."""

    name: str = Field(examples=["melted"])
    value: Number | str = Field(examples=[2.5])
    unit: str = Field(examples=["L"])
    is_default: bool = Field(description="Whether it stands in for what the request left open.")
    source: str = Field(description="Where a default comes from; empty for what was given.")


class FigureAnswer(StrictModel):
    """One quantity that the trip needs."""

    figure_id: str = Field(examples=["water_melted"])
    about: dict[str, str | int] = Field(
        description="What it is about: person, place, day, step of the day, and so on; empty for "
        "the whole trip.",
        examples=[{"place_id": "camp-1"}],
    )
    value: Number = Field(description="Not rounded.")
    unit: str = Field(examples=["L/person-night"])
    formula: str
    source: str
    status: str = Field(
        description="How the source was seen: read, quoted, computed, memory-unverified, practice."
    )
    inputs: list[InputAnswer]


class NoticeAnswer(StrictModel):
    """Something found about this trip, in words."""

    notice_id: str
    about: dict[str, str | int]
    message: str


class RequirementsAnswer(StrictModel):
    """What the trip needs. Nothing is planned, solved or stored for it."""

    reference: str | None
    figures: list[FigureAnswer]
    notices: list[NoticeAnswer]
    assumptions: list[AssumptionAnswer]
    cautions: list[CautionAnswer]
