"""Named edits on the wire: each is one change of a request, by id."""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from api_schema.calendar import Day
from api_schema.quantities import Mass
from api_schema.reserves import ReserveKindName
from api_schema.roster import SledRequest
from api_schema.strict import WHOLE, Id, IsoDate, StrictModel


class WithoutEdit(StrictModel):
    """Leaves a person at home, as `without` of a request does."""

    edit: Literal["without"]
    person_id: Id


class AddEdit(StrictModel):
    """Adds a person from the comparison's `people`."""

    edit: Literal["add"]
    person_id: Id


class CapEdit(StrictModel):
    """Changes caps of a person. Pack caps by mode keep their share of the pack cap."""

    edit: Literal["cap"]
    person_id: Id
    pack_cap: Mass | None = Field(default=None, examples=["24 kg"])
    sled_cap: Mass | None = Field(default=None)
    total_cap: Mass | None = Field(default=None)


class CountEdit(StrictModel):
    """Changes how many of a shared item are taken. 0 takes the item off the list."""

    edit: Literal["count"]
    item_id: Id
    count: Annotated[int, Field(ge=0, le=200), WHOLE]


class ReserveEdit(StrictModel):
    """Changes the nights of reserve of one kind at a place. 0 takes it away."""

    edit: Literal["reserve"]
    place: Id
    nights: Annotated[int, Field(ge=0, le=30), WHOLE]
    kind: ReserveKindName = Field(
        default="storm",
        description="For `storm` it also replaces the place's `storm_nights`.",
    )


class CalendarEdit(StrictModel):
    """Replaces the calendar."""

    edit: Literal["calendar"]
    calendar: list[Day] = Field(min_length=1, max_length=60)


class SledEdit(StrictModel):
    """Adds a sled, or replaces the one with the same id. Without `sled`, takes it away."""

    edit: Literal["sled"]
    sled_id: Id
    sled: SledRequest | None = Field(default=None)


class StartDateEdit(StrictModel):
    """Changes the date of day 1."""

    edit: Literal["start_date"]
    start_date: IsoDate


EDITS_MEMBER = "edits"
"""The list of a request whose members are named edits."""

NAMES_OF_EDITS = ("without", "add", "cap", "count", "reserve", "calendar", "sled", "start_date")

NamedEdit: TypeAlias = Annotated[
    WithoutEdit
    | AddEdit
    | CapEdit
    | CountEdit
    | ReserveEdit
    | CalendarEdit
    | SledEdit
    | StartDateEdit,
    Field(discriminator="edit"),
]
