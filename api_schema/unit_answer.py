"""The units of a plan on the wire: what each unit id stands for, by name."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from api_schema.gear import PurposeName
from api_schema.strict import StrictModel

UnitKindName = Literal["gear", "food", "fuel", "waste", "sled"]


class PlanUnitAnswer(StrictModel):
    """What one unit id of a plan stands for."""

    unit_id: str = Field(examples=["all/low"])
    label: str = Field(
        description="What to call one of them on paper: the name in the request, or else words "
        "made from the id.",
        examples=["night set low"],
    )
    kind: UnitKindName
    purpose: PurposeName | None = Field(description="The purpose of an item, if it has one.")
    owner: str | None = Field(description="Whose personal item it is. It is null for all else.")
    cook_group: str | None = Field(description="The cook group of food and fuel.")
    night_sets: int | None = Field(description="The night sets in one bag.")
    fuel_ml: int | None = Field(description="The fuel in one full container.")
