"""What the reading of a file assumed, on the wire."""

from __future__ import annotations

from pydantic import Field

from api_schema.strict import StrictModel


class FileAssumptionAnswer(StrictModel):
    """Something that was assumed because the file does not say it, or that was left out."""

    what: str = Field(examples=["The item is needed every night where its people sleep."])
    rows: list[int] = Field(
        description="The rows that it concerns. It is empty if it concerns the whole file."
    )
    rows_left_out: int = Field(description="How many more rows it concerns.")
