"""Liquid fuel on the wire: its margin and density, and the containers that it comes in."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from api_schema.price import Price
from api_schema.quantities import Density, Mass, Percent, Range, Volume
from api_schema.strict import WHOLE, Id, Name, StrictModel


class ContainerRequest(StrictModel):
    """A kind of fuel container. The kinds are opened in the order listed."""

    container_id: Id = Field(examples=["bottle"])
    name: Name | None = Field(default=None)
    cook_group: Id | None = Field(
        default=None,
        description="If not given, each cook group has containers of this kind, and this many. "
        "People with a menu of their own use the fuel of their kitchen.",
    )
    content: Annotated[Volume, Range("1 mL", "100 L")] = Field(
        description="The usable fuel in one container.", examples=["750 mL"]
    )
    capacity: Annotated[Volume, Range("1 mL", "100 L")] | None = Field(
        default=None,
        description="The volume of one container when it is filled to the brim.",
        examples=["1 L"],
    )
    tare: Mass = Field(description="The mass of one empty container.", examples=["190 g"])
    volume: Volume = Field(
        description="The volume that one container takes in a load.", examples=["1.2 L"]
    )
    count: Annotated[int, Field(ge=0, le=200), WHOLE] | None = Field(
        default=None, description="How many are taken. If not given, as many as are needed."
    )
    price: Price | None = Field(
        default=None, description="What one full container costs.", examples=["9.00 EUR"]
    )


class FuelRequest(StrictModel):
    """How fuel is counted and carried."""

    density: Annotated[Density, Range("0.5 kg/L", "1.2 kg/L")] | None = Field(
        default=None, examples=["0.7 kg/L"]
    )
    margin: Annotated[Percent, Range("0 %", "300 %")] | None = Field(
        default=None,
        description="The share that is added to the fuel of the night sets.",
        examples=["12 %"],
    )
    containers: list[ContainerRequest] | None = Field(
        default=None,
        min_length=1,
        max_length=200,
        description="If not given, generic bottles are used. One cook group has at most 10 kinds.",
    )
