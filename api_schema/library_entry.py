"""Stored parts of requests: what a caller stores, and what the service answers."""

from __future__ import annotations

from typing import Annotated, Any, Literal, TypeAlias

from pydantic import Field, StringConstraints, WithJsonSchema

from api_schema.gear import ItemRequest
from api_schema.menu import MenuRequest
from api_schema.roster import PersonalItems, PersonRequest
from api_schema.route import RouteRequest
from api_schema.strict import Flag, Id, Moment, StrictModel

EntryKind: TypeAlias = Literal["routes", "gear-lists", "menus", "rosters"]

Content: TypeAlias = Annotated[dict[str, Any], WithJsonSchema({"type": "object"})]


class _EntryToStore(StrictModel):
    title: Annotated[str, StringConstraints(min_length=1, max_length=200)] | None = Field(
        default=None, examples=["The guides of this season"]
    )
    reference: Annotated[str, StringConstraints(min_length=1, max_length=120)] | None = Field(
        default=None,
        description="Your own reference, if the entry belongs to one booking. If the reference is "
        "erased, every version of the entry is erased, except those with another reference.",
    )


class RouteToStore(_EntryToStore):
    """A route for the library."""

    route: RouteRequest


class GearListToStore(_EntryToStore):
    """A gear list for the library: shared items, and kits of personal items."""

    gear: list[ItemRequest] = Field(default=[], max_length=800)
    personal_kits: dict[Id, PersonalItems] = Field(default={}, max_length=48)


class MenuToStore(_EntryToStore):
    """A menu for the library."""

    menu: MenuRequest


class RosterToStore(_EntryToStore):
    """A roster for the library."""

    roster: list[PersonRequest] = Field(min_length=1, max_length=48)


class EntrySummaryAnswer(StrictModel):
    """The newest version of an entry, as a list shows it."""

    kind: EntryKind
    entry_id: str
    version: int = Field(description="A version that a plan used never changes.")
    title: str | None
    reference: str | None
    frozen: Flag = Field(
        description="Whether a plan has used this version. If so, what you store next is a new "
        "version."
    )
    stored_at: Moment


class EntryAnswer(EntrySummaryAnswer):
    """One version of an entry."""

    versions: list[int] = Field(description="All versions that can be read.")
    content: Content = Field(
        description="The parts of a request: `route`, `gear` and `personal_kits`, `menu` or "
        "`roster`.",
    )


class LibraryAnswer(StrictModel):
    """A page of the library, by kind and id."""

    entries: list[EntrySummaryAnswer]
    next_cursor: str | None = Field(description="For `cursor` of the next page.")


class PlanEntryAnswer(StrictModel):
    """A version that a plan used."""

    kind: EntryKind
    entry_id: str
    version: int


class PlanEntriesAnswer(StrictModel):
    """What a plan took from the library."""

    plan_id: str
    entries: list[PlanEntryAnswer]
