"""Flights to and from the start place: what each can take, and who must be on it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class FlightDirection(StrEnum):
    """Whether a flight brings people to the start of the trip or takes them home from it."""

    FLY_IN = "fly_in"
    FLY_OUT = "fly_out"


@dataclass(frozen=True, slots=True)
class Flight:
    """One flight, in the order in which flights of its direction go.

    `payload_g` is people and cargo together, `seats` passengers. Volume and length of cargo
    bind where they are given. `person_ids` are passengers already settled, None when the plan
    may choose; `fuel_with_people` says that the operator takes fuel beside passengers, and
    `loaded_by_operator` that its people load and unload cargo where none of the party is.
    """

    flight_id: str
    direction: FlightDirection
    payload_g: int
    seats: int
    volume_ml: int | None = None
    longest_mm: int | None = None
    person_ids: tuple[str, ...] | None = None
    fuel_with_people: bool = False
    loaded_by_operator: bool = False
