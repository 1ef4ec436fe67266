"""Flights on the wire: who and what is on each."""

from __future__ import annotations

from pydantic import Field

from api_schema.flights import FlightDirectionName
from api_schema.load_answer import StowedAnswer
from api_schema.strict import StrictModel


class FlyingPersonAnswer(StrictModel):
    """Somebody on a flight."""

    person_id: str
    kg: float = Field(
        description="The flying mass, as weighed or estimated. On a fly-in it "
        "includes the first lunch."
    )


class FlightAnswer(StrictModel):
    """Who and what is on one flight."""

    flight_id: str
    direction: FlightDirectionName
    people: list[FlyingPersonAnswer]
    seats: int
    people_kg: float
    cargo_kg: float
    payload_kg: float = Field(description="The most that people and cargo may weigh together.")
    load_fraction: float = Field(
        description="People and cargo as a share of the payload, rounded up."
    )
    cargo_l: float
    volume_l: float | None = Field(
        description="The volume for cargo. It is null if the request does not give it."
    )
    fuel_aboard: bool = Field(
        description="Whether containers that contain or contained fuel are aboard. The pilot "
        "decides."
    )
    units: list[StowedAnswer] = Field(
        description="The cargo. Items that are lashed outside packs on the ground count with "
        "their whole volume here. `sled/sled-1` is the empty sled."
    )
