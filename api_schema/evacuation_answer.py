"""What an answer says about somebody who has to go down."""

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
    """Who goes down with what, and what is left to do. Read `say` first."""

    say: list[str]
    possible: bool = Field(description="Whether those who leave can get down by themselves.")
    person_id: str
    how: Literal["walks", "hauled", "flies", "not_hurt"]
    place: str
    leaving: list[str] = Field(description="Those who go down, the hurt person first.")
    staying: list[str]
    takes: list[PlacedUnitsAnswer] = Field(
        description="What they take beside their own things, and where it is now."
    )
    left_behind: list[PlacedUnitsAnswer] = Field(
        description="Things of those who leave that nobody of either party has to carry."
    )
    sleds_left: list[str] = Field(description="Sleds of theirs that stay where they are.")
    missing: list[str] = Field(description="What is not there twice, so that both had it.")
    outside: list[str] = Field(description="What help from outside would need to bring or do.")
    each_hauler_pulls_kg: Number | None
    not_held: list[str] = Field(
        description="Rules that the party that leaves does not keep and that it is only advised of."
    )
    conflicts: list[str] = Field(description="Why those who leave have no plan, if they have none.")
    trips: list[TripAnswer] = Field(description="The trips of those who leave.")
