"""Loads on the wire: who carries what on which trip."""

from __future__ import annotations

from typing import Literal

from pydantic import ConfigDict, Field

from api_schema.route import LegModeName
from api_schema.strict import IsoDate, StrictModel


class StowedAnswer(StrictModel):
    """Units of one kind in a pack, on a sled or at a place."""

    unit_id: str = Field(
        description="`tent` shared, `lead/sleeping-bag` personal, `all/low` a bag of night sets, "
        "`all/bottle` a full container, `all/bottle/open-1` the first opened, "
        "`trash/camp-1/1-1` a sack.",
        examples=["all/low"],
    )
    name: str | None = Field(description="The name given in the request.")
    count: int
    each_kg: float = Field(
        description="Mass that one adds to the load; 0 for what is in use.", examples=[0.98]
    )
    each_l: float = Field(description="Volume that one adds to the load.", examples=[2.3])


class LoadAnswer(StrictModel):
    """What one person carries on one trip, gross."""

    person_id: str
    pack_kg: float = Field(description="Units, water and lunch.")
    pack_cap_kg: float
    pack_l: float
    water_kg: float
    lunch_kg: float
    sled_id: str | None
    sled_kg: float = Field(description="Units and the sled's tare; 0 without a sled.")
    sled_cap_kg: float = Field(
        description="The hauler's cap times the leg's factor; of two haulers the less of what "
        "their caps over their shares allow."
    )
    sled_l: float
    total_kg: float
    load_fraction: float = Field(description="The largest load over its cap.", examples=[0.8731])
    pack: list[StowedAnswer]
    sled: list[StowedAnswer]


class TripAnswer(StrictModel):
    """One party on one leg."""

    model_config = ConfigDict(validate_by_name=True)

    day: int = Field(description="Counted from 1.")
    date: IsoDate | None
    step: int = Field(description="Which of the day's trips, counted from 1.")
    from_: str = Field(alias="from")
    to: str
    leg_id: str
    mode: LegModeName
    direction: Literal["up", "down"]
    loads: list[LoadAnswer]
