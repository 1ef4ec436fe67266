"""The caches of a plan on the wire: what is left alone where, from when to when, and its label."""

from __future__ import annotations

from pydantic import Field

from api_schema.plan_answer import CautionAnswer, StowedAnswer
from api_schema.plan_resource import PlanId
from api_schema.strict import IsoDate, StrictModel


class CacheAnswer(StrictModel):
    """Things that stand at one place, unchanged, on nights on which nobody sleeps there."""

    place: str
    name: str | None = Field(description="The place's name, as given in the request.")
    left_day: int = Field(description="The day on which these things are left.")
    left_date: IsoDate | None
    pick_up_day: int = Field(
        description="The day on which somebody comes to take of them, to add to them or to stay."
    )
    pick_up_date: IsoDate | None
    nights: int = Field(description="Nights on which they stand alone.", ge=1)
    total_kg: float
    total_l: float
    food: list[StowedAnswer]
    fuel: list[StowedAnswer] = Field(
        description="Full, open and empty containers, to be buried apart from the food, upright."
    )
    gear: list[StowedAnswer]
    waste: list[StowedAnswer]
    poles: int = Field(
        description="Poles that mark it: as told in the request, else two, and more for a long pit."
    )
    poles_there: int = Field(
        description="Marker poles of the request's gear that the plan has standing there."
    )
    labels: int = Field(description="Labels to write: one for each pole.")
    label: str = Field(
        description="What to write on the label.",
        examples=[
            "booking 7 | left 2028-05-03 | pick-up 2028-05-05 | food, gear | fuel containers: no"
        ],
    )


class CachesAnswer(StrictModel):
    """All caches of a plan, by place along the route and then in order of days."""

    plan_id: PlanId
    reference: str | None
    cautions: list[CautionAnswer]
    poles_at_once: int = Field(description="Poles that stand on the night that needs most.")
    labels: int = Field(description="Labels of all caches together.")
    caches: list[CacheAnswer]
