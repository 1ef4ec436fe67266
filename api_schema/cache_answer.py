"""The caches of a plan on the wire: what is left alone where, from when to when, and its label."""

from __future__ import annotations

from pydantic import Field

from api_schema.common_answer import CautionAnswer
from api_schema.load_answer import StowedAnswer
from api_schema.plan_resource import CAUTIONS_FIRST, PlanId
from api_schema.strict import IsoDate, StrictModel


class CacheAnswer(StrictModel):
    """Things that stay unchanged at one place while nobody sleeps there."""

    place: str
    name: str | None = Field(description="The name of the place, as given in the request.")
    left_day: int = Field(description="The day on which these things are left.")
    left_date: IsoDate | None
    pick_up_day: int = Field(
        description="The day on which somebody comes to take some of them, to add to them or to "
        "stay."
    )
    pick_up_date: IsoDate | None
    nights: int = Field(description="The number of nights on which nobody sleeps there.", ge=1)
    total_kg: float
    total_l: float
    food: list[StowedAnswer]
    fuel: list[StowedAnswer] = Field(
        description="Full, open and empty containers. Bury them upright and away from the food."
    )
    gear: list[StowedAnswer]
    waste: list[StowedAnswer]
    poles: int = Field(
        description="The number of poles that mark the cache: as given in the request, or else "
        "two, and more for a long pit."
    )
    poles_there: int = Field(
        description="The number of marker poles from the request's gear that the plan leaves there."
    )
    labels: int = Field(description="The number of labels to write: one for each pole.")
    label: str = Field(
        description="What to write on the label.",
        examples=[
            "booking 7 | left 2028-05-03 | pick-up 2028-05-05 | food, gear | fuel containers: no"
        ],
    )


class CachesAnswer(StrictModel):
    """All caches of a plan, ordered by place along the route and then by day."""

    plan_id: PlanId
    reference: str | None
    cautions: list[CautionAnswer] = Field(description=CAUTIONS_FIRST)
    poles_at_once: int = Field(description="The number of poles on the night that needs the most.")
    labels: int = Field(description="The number of labels for all caches together.")
    caches: list[CacheAnswer]
