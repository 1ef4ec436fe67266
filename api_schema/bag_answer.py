"""Packing on the wire: a label for each bag, container and personal kit."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from api_schema.common_answer import CautionAnswer
from api_schema.plan_resource import CAUTIONS_FIRST, PlanId
from api_schema.purchase_answer import BASIS, BasisName
from api_schema.strict import IsoDate, StrictModel


class BagAnswer(StrictModel):
    """A label for `count` alike bags or containers, or for the bag of one person."""

    kind: Literal["food", "fuel", "personal"]
    owner: str = Field(description="The person, or the cook group.")
    label: str = Field(description="What to write on it.")
    count: int
    contents: str
    kg: float = Field(description="The mass of all of them.")
    first_day: int | None = Field(
        description="The first day of use. It is null for what is held in reserve."
    )
    first_date: IsoDate | None
    used_at: str | None = Field(description="The place where it is used first.")
    waits_at: list[str] = Field(
        description="The places where such things stand on the nights before the first day of use, "
        "except the start place. For a reserve, all places where they stand."
    )
    basis: BasisName = Field(description=BASIS)


class BagsAnswer(StrictModel):
    """The labels of a plan's bags and containers."""

    plan_id: PlanId
    reference: str | None
    cautions: list[CautionAnswer] = Field(description=CAUTIONS_FIRST)
    bags: list[BagAnswer]
