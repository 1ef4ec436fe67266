"""Loads on the wire: who carries what on which trip."""

from __future__ import annotations

from typing import Literal

from pydantic import ConfigDict, Field

from api_schema.route import LegModeName
from api_schema.strict import IsoDate, StrictModel


class StowedAnswer(StrictModel):
    """Units of one kind in a pack, on a sled or at a place."""

    unit_id: str = Field(
        description="For example `tent` for a shared item, `lead/sleeping-bag` for a personal "
        "item, `all/low` for a bag of night sets, `all/bottle` for a full container, "
        "`all/bottle/open-1` for the first container opened, `trash/camp-1/1-1` for a sack.",
        examples=["all/low"],
    )
    name: str | None = Field(description="The name given in the request.")
    count: int
    each_kg: float = Field(
        description="The mass that one unit adds to the load. It is 0 for a unit in use.",
        examples=[0.98],
    )
    each_l: float = Field(description="The volume that one unit adds to the load.", examples=[2.3])


class LoadAnswer(StrictModel):
    """What one person carries on one trip, gross."""

    person_id: str
    pack_kg: float = Field(description="The mass of the units, the water and the lunch.")
    pack_cap_kg: float = Field(description="The cap on the pack. It is never above a load limit.")
    pack_l: float
    water_kg: float
    lunch_kg: float
    sled_id: str | None
    sled_kg: float = Field(
        description="The mass of the units and the empty sled. It is 0 without a sled."
    )
    sled_cap_kg: float = Field(
        description="The hauler's cap times the leg's factor. With two haulers, each cap is "
        "divided by the hauler's share, and the smaller result counts."
    )
    sled_l: float
    total_kg: float
    load_limit_kg: float | None = Field(
        description="The most that somebody weak or hurt may carry, pack and sled together. It is "
        "null for others."
    )
    load_fraction: float = Field(
        description="The load as a share of its cap. Of pack, sled and both together, the largest "
        "share counts. A load limit is a cap, too.",
        examples=[0.8731],
    )
    pack: list[StowedAnswer]
    sled: list[StowedAnswer]


class TripAnswer(StrictModel):
    """One party on one leg."""

    model_config = ConfigDict(validate_by_name=True)

    day: int = Field(description="Counted from 1.")
    date: IsoDate | None
    step: int = Field(description="The number of the trip within its day, counted from 1.")
    from_: str = Field(alias="from")
    to: str
    leg_id: str
    mode: LegModeName
    direction: Literal["outbound", "homeward"]
    loads: list[LoadAnswer]
