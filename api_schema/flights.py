"""Flights and early leaving on the wire: what aircraft take, and who may have to go down."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from api_schema.price import Price
from api_schema.quantities import Length, Mass, Range, Volume
from api_schema.strict import WHOLE, Flag, Id, StrictModel

FlightDirectionName = Literal["fly_in", "fly_out"]


class FlightRequest(StrictModel):
    """One flight. Flights in the same direction go in the order listed."""

    flight_id: Id = Field(examples=["in-1"])
    direction: FlightDirectionName = Field(
        description="`in` is a fly-in to the start place. `out` is a fly-out from there."
    )
    payload: Annotated[Mass, Range("1 g", "20000 kg")] = Field(
        description="The most that people and cargo may weigh together.",
        examples=["350 kg", "900 lb"],
    )
    seats: Annotated[int, Field(ge=0, le=50), WHOLE] = Field(
        description="The most passengers.", examples=[3]
    )
    volume: Annotated[Volume, Range("0 L", "100000 L")] | None = Field(
        default=None, description="The volume for cargo.", examples=["1200 L"]
    )
    longest: Annotated[Length, Range("0.1 cm", "30 m")] | None = Field(
        default=None, description="The longest object that fits in.", examples=["2 m"]
    )
    people: Annotated[list[Id], Field(max_length=50)] | None = Field(
        default=None,
        description="Who is on this flight. `[]` means cargo only. If not given, the plan chooses.",
        examples=[["lead", "second"]],
    )
    fuel_with_people: Flag = Field(
        default=False,
        description="Whether the operator takes stove fuel on a flight with passengers.",
    )
    loaded_by_operator: Flag = Field(
        default=False,
        description="Whether the operator's people load and meet the flight. Cargo may then come "
        "before any of the party is there, or leave after the last of them has gone.",
    )
    price: Price | None = Field(
        default=None, description="What the whole flight costs.", examples=["1450.00 EUR"]
    )


class EvacuationRequest(StrictModel):
    """The question whether somebody could be taken down early."""

    person: Id = Field(examples=["third"])
    day: Annotated[int, Field(ge=1, le=60), WHOLE] | None = Field(
        default=None,
        description="The day of leaving, counted from 1. If not given, every day is checked.",
    )
