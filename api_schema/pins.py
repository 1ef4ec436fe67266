"""Pins on the wire: loads that the caller decides; the plan keeps them and the rest is solved."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import ConfigDict, Field

from api_schema.strict import WHOLE, Id, StrictModel, UnitId

PackOrSled = Literal["pack", "sled"]


class PinRequest(StrictModel):
    """A person carries at least this many units on a trip."""

    unit_id: UnitId = Field(
        description="The unit, named as in a plan of this request.", examples=["tent"]
    )
    person_id: Id = Field(description="Who carries it.", examples=["third"])
    day: Annotated[int, Field(ge=1, le=60), WHOLE] = Field(description="The day, counted from 1.")
    step: Annotated[int, Field(ge=1, le=100), WHOLE] | None = Field(
        default=None,
        description="Which trip of the person on that day, as in a plan. You may leave it out if "
        "the person makes only one trip that day.",
    )
    in_: PackOrSled | None = Field(
        default=None,
        alias="in",
        description="`pack` or `sled`. If not given, the pack. Give it if the person hauls a sled "
        "on that trip.",
    )
    count: Annotated[int, Field(ge=1, le=10_000), WHOLE] = Field(
        default=1, description="How many units at least.", examples=[2]
    )


class PinAnswer(StrictModel):
    """A pin of the request that the plan keeps."""

    model_config = ConfigDict(validate_by_name=True)

    pointer: str = Field(description="A JSON pointer to the pin in the request.")
    unit_id: str
    name: str | None
    person_id: str
    day: int
    step: int
    from_: str = Field(alias="from")
    to: str
    in_: PackOrSled = Field(alias="in")
    count: int = Field(description="How many units are pinned.")
    carried: int = Field(description="How many of these units the person carries there.")
