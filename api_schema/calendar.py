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
        description="The places in order. People slept at the first one last night and sleep at "
        "the last one tonight. A single place means a day without travel. The answer gives the "
        "kind of each day in `plan.days[].kind`.",
        examples=[["camp-1", "camp-2", "camp-1"]],
    ),
]


class DayRequest(StrictModel):
    """A day with more facts: places by rope team, clock times, or a note."""

    places: Places | None = Field(default=None, description="Where everybody goes.")
    teams: dict[Id, Places] | None = Field(
        default=None,
        min_length=1,
        max_length=24,
        description="Where each rope team goes, by the id of the team. It replaces `places`.",
        examples=[{"rope-1": ["camp-1", "camp-2"], "rope-2": ["camp-1"]}],
    )
    start: ClockTime | None = Field(
        default=None, description="For a summit day: when people leave camp.", examples=["06:30"]
    )
    turn_round: ClockTime | None = Field(
        default=None,
        description="For a summit day: when people turn round, wherever they are.",
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
