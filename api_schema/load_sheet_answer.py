"""The load sheet on the wire: who has what by name, what changes hands, tonight's kitchen."""

from __future__ import annotations

from pydantic import ConfigDict, Field

from api_schema.common_answer import CautionAnswer
from api_schema.kitchen_answer import KitchenAnswer
from api_schema.plan_resource import CAUTIONS_FIRST, PlanId
from api_schema.strict import IsoDate, StrictModel


class SheetElsewhereAnswer(StrictModel):
    """A trip on which another person than the keeper has a thing, or some of a bundle."""

    model_config = ConfigDict(validate_by_name=True)

    day: int
    step: int
    from_: str = Field(alias="from")
    to: str
    person_id: str
    count: int


class SheetKeeperAnswer(StrictModel):
    """A thing that exists only once, or a bundle of small alike things, and its keeper."""

    thing: str = Field(examples=["stove"])
    count: int = Field(description="How many there are. Of a bundle the keeper has most.")
    person_id: str
    trips: int = Field(description="The number of trips on which the thing rides.")
    others: dict[str, int] = Field(
        description="Who else has it, or some of them, and on how many trips.",
        examples=[{"second": 1}],
    )
    elsewhere: list[SheetElsewhereAnswer] = Field(
        description="The trips on which somebody else has it, or some of them."
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
    carried_in: str = Field(
        description="`pack`, the id of the sled, or `in_use` for what is worn or in use on the "
        "trip, and so is in no load.",
        examples=["pack"],
    )
    thing: str = Field(
        description="The name of the thing, or `water`, `lunch` or `sled` for the sled itself.",
        examples=["sleeping bag of lead"],
    )
    count: int
    kg: float | None = Field(description="The mass in the load. It is null for what is in use.")
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
