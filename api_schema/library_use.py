"""What a request takes from the library: parts that were stored before, by id and version."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from api_schema.strict import WHOLE, Id, StrictModel


class EntryUse(StrictModel):
    """One version of an entry of the library."""

    entry_id: Id = Field(examples=["north-ridge"])
    version: Annotated[int, Field(ge=1, le=1_000_000), WHOLE] = Field(examples=[3])


class LibraryUse(StrictModel):
    """Parts of a request that were stored with `PUT /v1/library/…`.

    They are put in when the request is accepted, so a plan stays readable whatever happens to them.
    A version that a plan used never changes.
    """

    route: EntryUse | None = Field(default=None, description="In place of `route`.")
    gear_lists: list[EntryUse] = Field(
        default=[],
        max_length=20,
        description="Their items come before those of `gear`, and their kits beside those of "
        "`personal_kits`.",
    )
    menu: EntryUse | None = Field(default=None, description="In place of `menu`.")
    roster: EntryUse | None = Field(default=None, description="In place of `roster`.")
