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

    Their contents are copied into the request when it is accepted. So a plan stays readable even
    if an entry is changed or deleted later. A version that a plan used never changes.
    """

    route: EntryUse | None = Field(default=None, description="Takes the place of `route`.")
    gear_lists: list[EntryUse] = Field(
        default=[],
        max_length=20,
        description="Their items come before the items of `gear`. Their kits are added to those of "
        "`personal_kits`.",
    )
    menu: EntryUse | None = Field(default=None, description="Takes the place of `menu`.")
    roster: EntryUse | None = Field(default=None, description="Takes the place of `roster`.")
