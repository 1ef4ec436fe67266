"""Flights on the wire: who and what is on each."""

from __future__ import annotations

from pydantic import Field

from api_schema.flights import FlightDirectionName
from api_schema.load_answer import StowedAnswer
from api_schema.strict import StrictModel


class FlyingPersonAnswer(StrictModel):
    """Somebody on a flight."""

    person_id: str
    kg: float = Field(description="As weighed for the aircraft, or reckoned, with first lunch.")


class FlightAnswer(StrictModel):
    """Who and what is on one flight."""

    flight_id: str
    direction: FlightDirectionName
    people: list[FlyingPersonAnswer]
    seats: int
    people_kg: float
    cargo_kg: float
    payload_kg: float = Field(description="People and cargo together, at most.")
    load_fraction: float = Field(description="People and cargo over the payload, rounded up.")
    cargo_l: float
    volume_l: float | None = Field(description="Room for cargo; null where it was not said.")
    fuel_aboard: bool = Field(
        description="Whether containers that hold or held fuel are aboard. The pilot decides."
    )
    units: list[StowedAnswer] = Field(
        description="Cargo, whatever rides outside packs with its whole volume. `sled/sled-1` is "
        "the empty sled."
    )
