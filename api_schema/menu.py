"""The menu on the wire: night sets, that is dinner, next breakfast and next travel lunch."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from api_schema.quantities import Elevation, Mass, Range, Temperature, Volume
from api_schema.strict import WHOLE, Flag, Id, Name, StrictModel, Word


class NightSetRequest(StrictModel):
    """Food of one person for one night, used where the person sleeps."""

    set_id: Id = Field(examples=["low"])
    name: Name | None = Field(default=None)
    cook_group: Id | None = Field(default=None, description="Left out, all cook groups use it.")
    mass: Mass = Field(description="Gross mass of one set.", examples=["980 g"])
    packaging: Mass = Field(
        default="0 g", description="The part of it that becomes trash.", examples=["60 g"]
    )
    lunch: Mass = Field(
        default="0 g", description="The part of it carried next day.", examples=["350 g"]
    )
    volume: Volume = Field(examples=["2.3 L"])
    fuel: Volume | None = Field(
        default=None,
        description="Fuel burnt to cook it and to make its water, before any margin. Left out, it "
        "is reckoned from snow to fuel at the place that takes most, with the `conditions`.",
        examples=["170 mL"],
    )
    energy_kcal: Annotated[int, Field(ge=1, le=15000), WHOLE] | None = Field(
        default=None, description="Energy of one set [kcal].", examples=[4100]
    )
    from_elevation: Annotated[Elevation, Range("-430 m", "10000 m")] | None = Field(
        default=None, description="Used at places from this height on."
    )
    below_elevation: Annotated[Elevation, Range("-430 m", "10000 m")] | None = Field(
        default=None, description="Used at places below this height.", examples=["3000 m"]
    )
    storm: Flag = Field(
        default=False, description="A storm set: for reserves, not used on planned nights."
    )
    sets_per_bag: Annotated[int, Field(ge=1, le=50), WHOLE] = Field(
        default=1, description="Sets in one bag, which is carried and opened whole."
    )
    bags: Annotated[int, Field(ge=0, le=1000), WHOLE] | None = Field(
        default=None, description="Bags taken. Left out, as many as the trip needs."
    )
    contains: Annotated[list[Word], Field(max_length=30)] | None = Field(
        default=None,
        description="The allergens in it, lunch and drinks included; `[]` for none. It must be "
        "said where somebody who eats from the menu avoids anything.",
        examples=[["milk", "peanut"]],
    )
    suits_diets: list[Word] = Field(
        default=[], max_length=12, description="The diets that it suits.", examples=[["vegetarian"]]
    )
    simmers: Flag | None = Field(
        default=None, description="Whether it takes more cooking than boiling water."
    )
    lowest: Annotated[Elevation, Range("-430 m", "10000 m")] | None = Field(
        default=None, description="The lowest camp that it is meant for."
    )
    highest: Annotated[Elevation, Range("-430 m", "10000 m")] | None = Field(
        default=None, description="The highest camp that it is meant for.", examples=["3000 m"]
    )
    dinner_kinds: Annotated[int, Field(ge=1, le=60), WHOLE] | None = Field(
        default=None, description="How many different dinners it has in turn.", examples=[3]
    )
    lunch_needs_cooking: Flag | None = Field(
        default=None, description="Whether its travel lunch must be cooked."
    )
    lunch_energy_kcal: Annotated[int, Field(ge=0, le=15000), WHOLE] | None = Field(
        default=None, description="Energy of its travel lunch [kcal].", examples=[1500]
    )
    spoils_below: Temperature | None = Field(
        default=None, description="Below this, freezing spoils it.", examples=["-5 degC"]
    )


class SetAtRequest(StrictModel):
    """Names the night set used at one place, where height alone does not settle it."""

    place: Id
    set_id: Id
    cook_group: Id | None = Field(default=None, description="Left out, for all cook groups.")


class MenuRequest(StrictModel):
    """All night sets, and where they are used."""

    night_sets: list[NightSetRequest] = Field(min_length=1, max_length=40)
    used_at: list[SetAtRequest] = Field(default=[], max_length=200)
