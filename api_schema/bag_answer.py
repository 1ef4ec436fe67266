"""Packing on the wire: a label for each bag, container and personal kit."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from api_schema.common_answer import CautionAnswer
from api_schema.plan_resource import CAUTIONS_FIRST, PlanId
from api_schema.purchase_answer import BASIS, BasisName
from api_schema.strict import IsoDate, StrictModel


class WaitAnswer(StrictModel):
    """A place where things stand overnight, several nights in a row."""

    place: str
    from_day: int = Field(
        description="The day after which they stand there first. It is 0 before the start."
    )
    to_day: int = Field(description="The last day after which they stand there.")


class BagAnswer(StrictModel):
    """A label for `count` alike bags or containers, or for the bag of one person."""

    kind: Literal["food", "fuel", "personal"]
    owner: str = Field(description="The person, or the cook group.")
    label: str = Field(description="What to write on it. Of a reserve it says how far it goes up.")
    count: int
    contents: str
    kg: float = Field(description="The mass of all of them.")
    first_day: int | None = Field(
        description="The first day of use. It is null for what is held in reserve. What one person "
        "brings is packed on day 1."
    )
    first_date: IsoDate | None
    used_at: str | None = Field(description="The place where it is used first.")
    waits_at: list[str] = Field(
        description="The places where these things stand on the nights before the first day of "
        "use, except the start place. For a reserve, all places where it stands. For what one "
        "person brings, the places where it stands on nights when its owner sleeps elsewhere."
    )
    waits: list[WaitAnswer] = Field(
        description="The same with the nights, and with the start place, in the order of the "
        "nights. Alike things are interchangeable: this is one choice of which ones wait where, "
        "and the counts agree with the stock of the plan."
    )
    basis: BasisName = Field(description=BASIS)


class BagsAnswer(StrictModel):
    """The labels of a plan's bags and containers."""

    plan_id: PlanId
    reference: str | None
    cautions: list[CautionAnswer] = Field(description=CAUTIONS_FIRST)
    bags: list[BagAnswer]
