"""Stock on the wire: what stands at each place, how long it lasts, what nights use."""

from __future__ import annotations

from pydantic import Field

from api_schema.load_answer import StowedAnswer
from api_schema.strict import IsoDate, StrictModel


class CookGroupStockAnswer(StrictModel):
    """How long a cook group's food and fuel at a place would last all of its people."""

    cook_group: str
    nights_of_food: float = Field(description="Night sets there over the group's people.")
    nights_of_fuel: float | None = Field(
        description="Fuel there over what the group burns in a night at that place, margin "
        "included; null where it burns none."
    )
    night_sets: int
    fuel_ml: int


class StockAnswer(StrictModel):
    """What stands at one place after the night of a day; day 0 is the start."""

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
    fuel_ml: int = Field(description="Margin included.")
    energy_kcal_each: int | None
