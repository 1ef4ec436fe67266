"""Keepers on the wire: who has each single piece of kit, and each bundle of small things."""

from __future__ import annotations

from typing import Literal

from pydantic import ConfigDict, Field

from api_schema.strict import StrictModel


class ElsewhereAnswer(StrictModel):
    """A trip on which somebody other than the keeper has the thing, or some of a bundle."""

    model_config = ConfigDict(validate_by_name=True)

    day: int
    step: int
    from_: str = Field(alias="from")
    to: str
    person_id: str = Field(description="Who has it on this trip.")
    count: int
    reason: Literal["not_on_trip", "load", "volume", "other"] = Field(
        description="Why the keeper does not have it. `not_on_trip`: the keeper takes no part in "
        "the trip. `load`: with it, the keeper's load fraction would be above the peak load. "
        "`volume`: the keeper has no room for it. `other`: not the caps but something else is the "
        "reason, for example a rule that keeps things apart, a preference or the balance of loads."
    )


class KeeperAnswer(StrictModel):
    """The keeper of a single piece of shared kit, or of small alike things that ride as a bundle.

    A bundle is a shared item with a count above 1 that belongs `at_place` and weighs at most
    500 g, such as wands and pickets.
    """

    unit_id: str = Field(examples=["stove"])
    name: str | None = Field(description="The name given in the request.")
    count: int = Field(description="How many there are.")
    person_id: str = Field(
        description="The keeper. It is the person whom the request names, or else the person who "
        "has most units over all trips."
    )
    is_named: bool = Field(description="Whether the request names this keeper.")
    from_day: int = Field(description="The day of the first trip on which it rides.")
    to_day: int = Field(description="The day of the last trip on which it rides.")
    trips: int = Field(description="On how many trips it rides.")
    elsewhere: list[ElsewhereAnswer] = Field(
        description="The trips on which somebody else has it. It is empty for most things."
    )
