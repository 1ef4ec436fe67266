"""What is asked of the variants of a comparison: the least or the most of one figure."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from api_schema.strict import NUMBER, Flag, StrictModel

ChoosableName = Literal[
    "peak",
    "days",
    "people",
    "client_days",
    "trips",
    "heavy_person_trips",
    "taken_kg",
    "food_kg",
    "fuel_l",
    "fuel_containers",
    "sleds",
    "shelters",
    "flights",
    "flown_kg",
]


class FigureLimit(StrictModel):
    """The least and the most that a figure may be."""

    figure: ChoosableName
    least: Annotated[float, NUMBER] | None = Field(default=None)
    most: Annotated[float, NUMBER] | None = Field(default=None, examples=[0.95])


class ChoiceRequest(StrictModel):
    """Which figure should be least or most, and limits on other figures."""

    goal: Literal["least", "most"] = Field(examples=["least"])
    figure: ChoosableName = Field(examples=["flown_kg"])
    limits: list[FigureLimit] = Field(default=[], max_length=14)
    cancel_beaten: Flag = Field(
        default=False,
        description="Whether to cancel variants that are not solved yet and cannot be better than "
        "one that was found. This is known of `people`, `days` and `client_days`, which follow "
        "from the request. The service looks while you wait for the comparison, and each time that "
        "it is read with a key of the scope `plan`.",
    )


class ChosenVariantAnswer(StrictModel):
    """The variant that was asked for."""

    name: str | None = Field(description="Null if no solved variant keeps the limits.")
    goal: Literal["least", "most"]
    figure: ChoosableName
    value: float | None
    proven: bool = Field(
        description="Whether it is proven that no other variant keeps the limits with a better "
        "figure. It is false while a variant waits that could have one, if one found no plan in "
        "time, or if the plan of one was deleted."
    )
