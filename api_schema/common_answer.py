"""What every answer to a request says: what was assumed, what to be careful of."""

from __future__ import annotations

from pydantic import Field

from api_schema.strict import StrictModel


class AssumptionAnswer(StrictModel):
    """A number or choice that the request left to the service, or a rule that it changed."""

    pointer: str = Field(
        description="JSON Pointer of the field that would settle it.",
        examples=["/roster/0/water"],
    )
    what: str = Field(examples=["Water carried on every trip."])
    value: str = Field(examples=["2 L"])
    source_status: str = Field(
        description="Where the value comes from; `stated in the request` where a rule was changed.",
        examples=["common practice, no source"],
    )


class CautionAnswer(StrictModel):
    """A word of caution that goes with the result."""

    caution_id: str
    text: str
