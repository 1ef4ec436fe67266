"""Liquid fuel on the wire: its margin and density, and the containers that it comes in."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from api_schema.quantities import Density, Mass, Percent, Range, Volume
from api_schema.strict import WHOLE, Id, Name, StrictModel


class ContainerRequest(StrictModel):
    """A kind of fuel container; kinds are opened in the order listed."""

    container_id: Id = Field(examples=["bottle"])
    name: Name | None = Field(default=None)
    cook_group: Id | None = Field(
        default=None, description="Left out, each cook group has this kind, and this many."
    )
    content: Annotated[Volume, Range("1 mL", "100 L")] = Field(
        description="Fuel that can be used of it.", examples=["750 mL"]
    )
    capacity: Annotated[Volume, Range("1 mL", "100 L")] | None = Field(
        default=None,
        description="What would go in if it were filled to the brim.",
        examples=["1 L"],
    )
    tare: Mass = Field(description="Mass of the empty one.", examples=["190 g"])
    volume: Volume = Field(description="Room that it takes.", examples=["1.2 L"])
    count: Annotated[int, Field(ge=0, le=200), WHOLE] | None = Field(
        default=None, description="How many are taken. Left out, as many as the trip needs."
    )


class FuelRequest(StrictModel):
    """How fuel is counted and carried."""

    density: Annotated[Density, Range("0.5 kg/L", "1.2 kg/L")] | None = Field(
        default=None, examples=["0.7 kg/L"]
    )
    margin: Annotated[Percent, Range("0 %", "300 %")] | None = Field(
        default=None, description="Added to what the night sets burn.", examples=["12 %"]
    )
    containers: list[ContainerRequest] | None = Field(
        default=None, min_length=1, max_length=10, description="Left out, generic bottles."
    )
