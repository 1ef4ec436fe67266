"""The load sheet on the wire: who has what by name, what changes hands, tonight's kitchen."""

from __future__ import annotations

from pydantic import ConfigDict, Field

from api_schema.common_answer import CautionAnswer
from api_schema.kitchen_answer import KitchenAnswer
from api_schema.plan_resource import CAUTIONS_FIRST, PlanId
from api_schema.strict import IsoDate, StrictModel


class SheetKeeperAnswer(StrictModel):
    """A thing that exists only once, and its keeper."""

    thing: str = Field(examples=["stove"])
    person_id: str
    trips: int = Field(description="The number of trips on which the thing rides.")
    others: dict[str, int] = Field(
        description="Who else has it, and on how many trips.", examples=[{"second": 1}]
    )


class SheetRowAnswer(StrictModel):
    """One kind of thing that one person has on one trip, by name."""

    model_config = ConfigDict(validate_by_name=True)

    day: int
    date: IsoDate | None
    step: int
    from_: str = Field(alias="from")
    to: str
    person_id: str
    carried_in: str = Field(description="`pack`, or the id of the sled.", examples=["pack"])
    thing: str = Field(examples=["sleeping bag of lead"])
    count: int
    kg: float
    keeper: str | None = Field(description="The keeper, if it is a single piece of shared kit.")
    taken_over_from: str | None = Field(
        description="If it changes hands here, the person who had it on its trip before."
    )
    reason: str | None = Field(description="Why it changes hands, as far as the loads show it.")


class LoadSheetAnswer(StrictModel):
    """Who has what, by name, for paper. `/loads` gives the same with the unit ids."""

    plan_id: PlanId
    reference: str | None
    cautions: list[CautionAnswer] = Field(description=CAUTIONS_FIRST)
    keepers: list[SheetKeeperAnswer]
    rows: list[SheetRowAnswer]
    kitchens: list[KitchenAnswer]
