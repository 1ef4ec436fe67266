"""The calendar on the wire: a day is the list of places visited."""

from __future__ import annotations

from typing import Annotated, TypeAlias

from pydantic import Discriminator, Field, Tag

from api_schema.strict import ClockTime, Id, Note, StrictModel

LIST_OF_PLACES = "list of places"
DAY_OBJECT = "day object"

Places: TypeAlias = Annotated[
    list[Id],
    Field(
        min_length=1,
        max_length=30,
        description="Places in order: the first is where people slept last night, the last where "
        "they sleep tonight. One place alone is a day without travel.",
        examples=[["camp-1", "camp-2", "camp-1"]],
    ),
]


class DayRequest(StrictModel):
    """A day with more to say: other places for each rope team, times of the clock, or a note."""

    places: Places | None = Field(default=None, description="Where everybody goes.")
    teams: dict[Id, Places] | None = Field(
        default=None,
        min_length=1,
        max_length=12,
        description="Where each rope team goes, by its id; instead of `places`.",
        examples=[{"rope-1": ["camp-1", "camp-2"], "rope-2": ["camp-1"]}],
    )
    start: ClockTime | None = Field(
        default=None, description="When people leave, for a summit day.", examples=["06:30"]
    )
    turn_round: ClockTime | None = Field(
        default=None,
        description="When they turn round wherever they are, for a summit day.",
        examples=["14:30"],
    )
    note: Note | None = Field(default=None, examples=["carry to the cache, return"])


def _form(value: object) -> str:
    return DAY_OBJECT if isinstance(value, dict | DayRequest) else LIST_OF_PLACES


Day: TypeAlias = Annotated[
    Annotated[Places, Tag(LIST_OF_PLACES)] | Annotated[DayRequest, Tag(DAY_OBJECT)],
    Discriminator(_form),
]

# The names that Pydantic puts into the address of an error to say which form was tried. No field
# of the wire has a space in its name, so that they cannot be mistaken for one.
FORM_TAGS = frozenset({LIST_OF_PLACES, DAY_OBJECT})
