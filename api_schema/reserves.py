"""Reserves and waste on the wire: what is held and not used, and what comes down again."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from api_schema.quantities import Density, Mass
from api_schema.strict import WHOLE, Flag, Id, StrictModel

ReserveKindName = Literal["storm", "descent", "base_wait", "evacuation"]


class ReserveRequest(StrictModel):
    """So many nights of food and fuel kept at a place; reserves at one place add up."""

    place: Id = Field(examples=["camp-2"])
    nights: Annotated[int, Field(ge=1, le=30), WHOLE] = Field(examples=[2])
    kind: ReserveKindName = Field(
        default="storm",
        description="`storm`: every night that people sleep there. `descent`: from the first "
        "night there until all have passed it homeward. `base_wait`: the whole trip, for all. "
        "`evacuation`: every night that people sleep there, for those who would leave with one "
        "who is ill.",
    )
    people: Annotated[int, Field(ge=1, le=48), WHOLE] | None = Field(
        default=None,
        description="How many of each cook group an `evacuation` reserve is held for; the other "
        "kinds know it themselves.",
        examples=[3],
    )
    cook_group: Id | None = Field(default=None, description="Left out, for all cook groups.")
    set_id: Id | None = Field(
        default=None,
        description="The night set held. Left out, the storm set, or else the place's own.",
    )


class WasteRequest(StrictModel):
    """Packaging and human waste, carried down in sacks."""

    per_person_night: Mass | None = Field(
        default=None,
        description="Human waste carried out, of one person in one night, with liner and paper; "
        "`0 g` for none.",
        examples=["185 g"],
    )
    trash_sack: Mass | None = Field(
        default=None, description="Most that one trash sack holds.", examples=["4 kg"]
    )
    waste_sack: Mass | None = Field(
        default=None, description="Most that one waste sack holds.", examples=["4 kg"]
    )
    trash_density: Density | None = Field(default=None, examples=["0.2 kg/L"])
    may_be_left: Flag = Field(
        default=False, description="Whether the land manager lets human waste stay."
    )
    waste_density: Density | None = Field(default=None, examples=["0.5 kg/L"])
