"""Stock on the wire: what stands at each place, how long it lasts, what nights use."""

from __future__ import annotations

from pydantic import Field

from api_schema.load_answer import StowedAnswer
from api_schema.strict import IsoDate, StrictModel


class CookGroupStockAnswer(StrictModel):
    """How long a cook group's food and fuel at a place would last for all of its people.

    For food, people with a menu of their own are a separate group. Their fuel is that of
    their kitchen.
    """

    cook_group: str
    nights_of_food: float = Field(
        description="The number of night sets there, divided by the number of people in the group."
    )
    nights_of_fuel: float | None = Field(
        description="The fuel there, divided by what the group burns in one night at that place "
        "with the margin, for all menus of its kitchen. It is null if the group burns none."
    )
    night_sets: int
    fuel_ml: int


class StockAnswer(StrictModel):
    """What is at one place after the night of a day. Day 0 is the start."""

    day: int
    date: IsoDate | None
    place: str
    kg: float
    cook_groups: list[CookGroupStockAnswer]
    units: list[StowedAnswer]


class UsedAnswer(StrictModel):
    """What one cook group uses in one night."""

    day: int
    date: IsoDate | None
    place: str
    cook_group: str
    people: int
    set_id: str
    night_sets: int
    bags: int
    fuel_ml: int = Field(description="With the margin.")
    energy_kcal_each: int | None
