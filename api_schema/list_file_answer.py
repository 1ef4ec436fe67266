"""What the service reads from gear lists and rosters, on the wire: parts of a request."""

from __future__ import annotations

from typing import Annotated, Any, TypeAlias

from pydantic import Field, WithJsonSchema

from api_schema.file_answer import FileAssumptionAnswer
from api_schema.strict import StrictModel

Json: TypeAlias = dict[str, Any]


def _list_of(model_name: str) -> WithJsonSchema:
    return WithJsonSchema(
        {"type": "array", "items": {"$ref": f"#/components/schemas/{model_name}"}}
    )


# Parts of a request as it takes them, with only the members that the file gives. Their schemas
# are those of the request, whose members have defaults.
Items: TypeAlias = Annotated[list[Json], _list_of("ItemRequest")]
People: TypeAlias = Annotated[list[Json], _list_of("PersonRequest")]
Kits: TypeAlias = Annotated[
    dict[str, list[Json]],
    WithJsonSchema(
        {
            "type": "object",
            "additionalProperties": {
                "type": "array",
                "items": {"$ref": "#/components/schemas/PersonalItemRequest"},
            },
        }
    ),
]


class ReadSheetAnswer(StrictModel):
    """Which part of a file was read."""

    file: str
    sheet: str | None = Field(description="It is null for CSV.")
    header_row: int
    rows: int = Field(description="The number of rows with content below the header.")
    columns: dict[str, str] = Field(
        description="The field of the request for each header that was read.",
        examples=[{"Mass (kg)": "mass"}],
    )
    columns_not_read: list[str]
    sheets_not_read: list[str]


class GearListFileAnswer(StrictModel):
    """A gear list as a request takes it: `gear` and `personal_kits`."""

    gear: Items = Field(description="Shared items, for `gear` of a request.")
    personal_kits: Kits = Field(
        description="The items of rows with an owner, for `personal_kits` of a request. The id of "
        "each kit is its owner. Set `personal_kit` or `extra_items` of that person."
    )
    total_kg: float = Field(description="The mass of everything in the list.")
    assumed: list[FileAssumptionAnswer]
    read: ReadSheetAnswer


class RosterFileAnswer(StrictModel):
    """A roster as a request takes it: `roster`."""

    roster: People = Field(description="People, for `roster` of a request.")
    assumed: list[FileAssumptionAnswer]
    read: ReadSheetAnswer
