"""Reserves and waste on the wire: what is held and not used, and what comes down."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from api_schema.quantities import Density, Mass
from api_schema.strict import WHOLE, Flag, Id, StrictModel

ReserveKindName = Literal["storm", "descent", "base_wait", "evacuation"]


class ReserveRequest(StrictModel):
    """Nights of food and fuel that are kept at a place. Reserves at one place add up."""

    place: Id = Field(examples=["camp-2"])
    nights: Annotated[int, Field(ge=1, le=30), WHOLE] = Field(examples=[2])
    kind: ReserveKindName = Field(
        default="storm",
        description="`storm`: held every night on which people sleep there. `descent`: held from "
        "the first night there until everybody has passed it homeward. `base_wait`: held for "
        "everybody during the whole expedition. `evacuation`: held every night on which people "
        "sleep there, for those who would leave with an ill person.",
    )
    people: Annotated[int, Field(ge=1, le=48), WHOLE] | None = Field(
        default=None,
        description="For how many people of each cook group, and of each menu in it, an "
        "`evacuation` reserve is held. Anybody may be the one who leaves. The other kinds do not "
        "need this.",
        examples=[3],
    )
    cook_group: Id | None = Field(
        default=None,
        description="The cook group, with all menus of its kitchen. If not given, all cook groups.",
    )
    set_id: Id | None = Field(
        default=None,
        description="The night set that is held. If not given, or if a menu has no such set, it is "
        "the storm set, or else the set used at the place.",
    )


class WasteRequest(StrictModel):
    """Trash and human waste, which are carried down in sacks."""

    per_person_night: Mass | None = Field(
        default=None,
        description="The human waste that is carried out, for one person and night, with liner and "
        "paper. `0 g` means none.",
        examples=["185 g"],
    )
    trash_sack: Mass | None = Field(
        default=None, description="The most that one trash sack holds.", examples=["4 kg"]
    )
    human_waste_sack: Mass | None = Field(
        default=None, description="The most that one sack of human waste holds.", examples=["4 kg"]
    )
    trash_density: Density | None = Field(default=None, examples=["0.2 kg/L"])
    may_be_left: Flag = Field(
        default=False, description="Whether the land manager allows human waste to stay."
    )
    human_waste_density: Density | None = Field(default=None, examples=["0.5 kg/L"])
