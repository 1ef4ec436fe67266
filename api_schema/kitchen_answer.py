"""Tonight's kitchen on the wire: who brought stove and pot, and which sets and fuel are used."""

from __future__ import annotations

from pydantic import Field

from api_schema.strict import StrictModel


class KitchenThingAnswer(StrictModel):
    """Things in a kitchen, and who brought them there last."""

    thing: str
    count: int
    brought_by: dict[str, int] = Field(
        description="Who brought how many on the last trip that brought any. It is empty for "
        "things that were there at the start.",
        examples=[{"lead": 1}],
    )
    brought_day: int | None = Field(description="The day of that trip.")


class KitchenAnswer(StrictModel):
    """The kitchen of one cook group on one night."""

    day: int
    place: str
    cook_group: str
    night_set: str = Field(description="The night set that is eaten, by name.")
    night_sets: int
    bags: int
    fuel_ml: int = Field(description="The fuel that is burnt, with the margin.")
    stoves: list[KitchenThingAnswer]
    pots: list[KitchenThingAnswer]
    food: list[KitchenThingAnswer] = Field(description="The bags that are opened.")
    fuel: list[KitchenThingAnswer] = Field(
        description="The containers at the place that are not empty after the night. Those in use "
        "come first."
    )
