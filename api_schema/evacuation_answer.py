"""What an answer says about a person who has to go down."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from api_schema.load_answer import TripAnswer
from api_schema.strict import Number, StrictModel


class PlacedUnitsAnswer(StrictModel):
    """Units of one id at a place."""

    place: str
    unit_id: str
    count: int


class EvacuationAnswer(StrictModel):
    """Who goes down, what they take, and what is left to do. Read `say` first."""

    say: list[str]
    possible: bool = Field(description="Whether those who leave can get down by themselves.")
    person_id: str
    how: Literal["walks", "hauled", "flies", "not_hurt"]
    place: str
    leaving: list[str] = Field(description="Those who go down, the hurt person first.")
    staying: list[str]
    waits_with: list[str] = Field(
        description="Who waits with a person who is fetched (`flies`). If the request names no "
        "companions, it is everybody at the place, and nobody leaves it before that."
    )
    stays_until_fetched: list[PlacedUnitsAnswer] = Field(
        description="Shelter, stove, communicator, food and fuel that have to be at the place "
        "until the person is fetched. `missing` says what is not there."
    )
    load_limit_kg: Number | None = Field(
        description="The most that the hurt person carries. None if the person flies or is not "
        "hurt."
    )
    load_limit_why: str | None = Field(description="Which limit that is.")
    takes: list[PlacedUnitsAnswer] = Field(
        description="What they take besides their own things, and where it is now."
    )
    left_behind: list[PlacedUnitsAnswer] = Field(
        description="Things that stay behind: neither party carries them."
    )
    sleds_left: list[str] = Field(description="Sleds of those who leave that stay where they are.")
    missing: list[str] = Field(
        description="What there is too little of for two parties or for the wait."
    )
    outside: list[str] = Field(description="What help from outside would need to bring or do.")
    each_hauler_pulls_kg: Number | None
    not_held: list[str] = Field(
        description="Rules that those who leave do not keep. For them, these are advisories only."
    )
    conflicts: list[str] = Field(description="Why those who leave have no plan, if they have none.")
    trips: list[TripAnswer] = Field(description="The trips of those who leave.")
