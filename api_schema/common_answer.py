"""What every answer to a request says: what was assumed, what to be careful of."""

from __future__ import annotations

from pydantic import Field

from api_schema.strict import StrictModel


class AssumptionAnswer(StrictModel):
    """A value that the service chose because none was given, or a rule that the request changed."""

    pointer: str = Field(
        description="JSON Pointer of the field with which a request gives this value.",
        examples=["/roster/0/water"],
    )
    what: str = Field(examples=["The water carried on every trip."])
    value: str = Field(examples=["2 L"])
    source_status: str = Field(
        description="Where the value comes from. It is `given in the request` for a changed rule.",
        examples=["common practice, no source"],
    )


class CautionAnswer(StrictModel):
    """A standing warning that goes with the result."""

    caution_id: str
    text: str
