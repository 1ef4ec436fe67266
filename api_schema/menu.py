"""The menu on the wire: night sets, that is dinner, next breakfast and next travel lunch."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from api_schema.price import Price
from api_schema.quantities import Elevation, Mass, Range, Temperature, Volume
from api_schema.strict import WHOLE, Flag, Id, Name, StrictModel, Word


class NightSetRequest(StrictModel):
    """The food of one person for one night, used where the person sleeps."""

    set_id: Id = Field(examples=["low"])
    name: Name | None = Field(default=None)
    cook_group: Id | None = Field(default=None, description="If not given, all cook groups use it.")
    menu: Id | None = Field(
        default=None,
        description="Only people with this `menu` in the roster eat the set. A menu needs all sets "
        "for its people, storm sets too. Sets of different menus may have the same id. If not "
        "given, everybody without a menu of their own eats it.",
        examples=["vegetarian"],
    )
    mass: Mass = Field(description="The gross mass of one set.", examples=["980 g"])
    packaging: Mass = Field(
        default="0 g", description="The part of the mass that becomes trash.", examples=["60 g"]
    )
    lunch: Mass = Field(
        default="0 g",
        description="The part of the mass that is carried as travel lunch next day.",
        examples=["350 g"],
    )
    volume: Volume = Field(examples=["2.3 L"])
    fuel: Volume | None = Field(
        default=None,
        description="The fuel that is burnt to cook the set and to make its water, before any "
        "margin. If not given, it is computed from the `conditions` at the place that needs the "
        "most.",
        examples=["170 mL"],
    )
    energy_kcal: Annotated[int, Field(ge=1, le=15000), WHOLE] | None = Field(
        default=None, description="The energy of one set [kcal].", examples=[4100]
    )
    from_elevation: Annotated[Elevation, Range("-430 m", "10000 m")] | None = Field(
        default=None, description="The set is used at places from this elevation up."
    )
    below_elevation: Annotated[Elevation, Range("-430 m", "10000 m")] | None = Field(
        default=None,
        description="The set is used at places below this elevation.",
        examples=["3000 m"],
    )
    storm: Flag = Field(
        default=False,
        description="Whether this is a storm set. Storm sets are for reserves and "
        "are not used on planned nights.",
    )
    sets_per_bag: Annotated[int, Field(ge=1, le=50), WHOLE] = Field(
        default=1, description="The number of sets in one bag. A bag is carried and opened whole."
    )
    bags: Annotated[int, Field(ge=0, le=1000), WHOLE] | None = Field(
        default=None, description="The number of bags taken. If not given, as many as are needed."
    )
    contains: Annotated[list[Word], Field(max_length=30)] | None = Field(
        default=None,
        description="The allergens in it, lunch and drinks included; `[]` for none. It must be "
        "said where somebody who eats from the menu avoids anything.",
        examples=[["milk", "peanut"]],
    )
    suits_diets: list[Word] = Field(
        default=[],
        max_length=12,
        description="The diets for which the set is suitable.",
        examples=[["vegetarian"]],
    )
    simmers: Flag | None = Field(
        default=None, description="Whether the set needs more cooking than boiling water."
    )
    lowest: Annotated[Elevation, Range("-430 m", "10000 m")] | None = Field(
        default=None, description="The elevation of the lowest camp for which the set is meant."
    )
    highest: Annotated[Elevation, Range("-430 m", "10000 m")] | None = Field(
        default=None,
        description="The elevation of the highest camp for which the set is meant.",
        examples=["3000 m"],
    )
    dinner_kinds: Annotated[int, Field(ge=1, le=60), WHOLE] | None = Field(
        default=None, description="How many different dinners the set has in turn.", examples=[3]
    )
    lunch_needs_cooking: Flag | None = Field(
        default=None, description="Whether the travel lunch must be cooked."
    )
    lunch_energy_kcal: Annotated[int, Field(ge=0, le=15000), WHOLE] | None = Field(
        default=None, description="The energy of the travel lunch [kcal].", examples=[1500]
    )
    spoils_below: Temperature | None = Field(
        default=None, description="Freezing spoils it below this temperature.", examples=["-5 degC"]
    )
    price: Price | None = Field(
        default=None, description="What one set costs.", examples=["12.50 EUR"]
    )


class SetAtRequest(StrictModel):
    """The night set used at one place, if its elevation alone does not decide that."""

    place: Id
    set_id: Id
    cook_group: Id | None = Field(
        default=None, description="If not given, it holds for all cook groups."
    )
    menu: Id | None = Field(
        default=None,
        description="The menu of the set. If not given, the set is for people without a menu of "
        "their own.",
    )


class MenuRequest(StrictModel):
    """All night sets, and where they are used."""

    night_sets: list[NightSetRequest] = Field(
        min_length=1, max_length=200, description="One cook group has at most 40 of them."
    )
    used_at: list[SetAtRequest] = Field(default=[], max_length=400)
