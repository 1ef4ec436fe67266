"""The library on the wire: generic gear and starter menus, as a request takes them."""

from __future__ import annotations

from typing import Annotated, Any, TypeAlias

from pydantic import Field, WithJsonSchema

from api_schema.list_file_answer import Items, Kits
from api_schema.strict import StrictModel

Menu: TypeAlias = Annotated[
    dict[str, Any],
    WithJsonSchema({"type": "object", "allOf": [{"$ref": "#/components/schemas/MenuRequest"}]}),
]


class GearLibraryAnswer(StrictModel):
    """Generic gear. None of it was weighed."""

    masses: str = Field(description="What the masses are.", examples=["typical, not weighed"])
    source: str = Field(description="Where they come from.", examples=["from memory, unverified"])
    gear: Items = Field(description="Shared items, for `gear` of a request. Choose from them.")
    personal_kits: Kits = Field(description="The generic kit, for `personal_kits` of a request.")


class StarterMenuAnswer(StrictModel):
    """One starter menu."""

    menu_id: str = Field(examples=["dried"])
    name: str
    menu: Menu = Field(description="For `menu` of a request. It does not say what is in the food.")


class StarterMenusAnswer(StrictModel):
    """All starter menus. Nothing in them was weighed."""

    masses: str = Field(examples=["typical, not weighed"])
    source: str = Field(examples=["from memory, unverified"])
    menus: list[StarterMenuAnswer]
