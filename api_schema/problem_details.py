"""Errors on the wire: problem details (RFC 9457), every fault at once."""

from __future__ import annotations

from pydantic import Field

from api_schema.strict import StrictModel


class FilePlaceAnswer(StrictModel):
    """A place in a file that was sent. It is as exact as the fault is."""

    file: str = Field(examples=["gear.xlsx"])
    sheet: str | None = Field(default=None, examples=["Gear"])
    row: int | None = Field(default=None, description="Counted from 1.", examples=[7])
    column: str | None = Field(default=None, examples=["C"])
    header: str | None = Field(default=None, examples=["Mass (kg)"])


class FaultAnswer(StrictModel):
    """One fault of a request. It names a place in the body or in a file, or a parameter."""

    pointer: str | None = Field(
        default=None,
        description="JSON Pointer (RFC 6901) into the body.",
        examples=["/roster/2/pack_cap"],
    )
    parameter: str | None = Field(
        default=None, description="The name of the query, path or header parameter."
    )
    place: FilePlaceAnswer | None = Field(
        default=None, description="Where in the file, for a body that is a file."
    )
    code: str = Field(description="The stable code of the fault.", examples=["no_unit"])
    detail: str = Field(
        description="What is wrong, what is allowed and what to do.",
        examples=['A mass needs a unit. Write a number, a space and a unit, for example "25 kg".'],
    )


class ProblemDetails(StrictModel):
    """A refusal or failure."""

    type: str = Field(examples=["/v1/problems/invalid_request"])
    title: str = Field(examples=["The request has the faults listed under errors."])
    status: int = Field(examples=[422])
    code: str = Field(description="The stable code of the problem.", examples=["invalid_request"])
    detail: str
    instance: str | None = None
    errors: list[FaultAnswer] | None = Field(
        default=None, description="All faults of the request, at most 50."
    )
    errors_left_out: int | None = Field(
        default=None, description="How many more faults there are, if there are any."
    )
