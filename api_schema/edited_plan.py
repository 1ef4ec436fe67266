"""A plan sent to the service: one of its answers as it is, or edited by hand."""

from __future__ import annotations

from typing import Annotated

from pydantic import ConfigDict, Field

from api_schema.strict import NUMBER, WHOLE, Id, StrictModel, UnitId


class _EditedModel(StrictModel):
    """Part of an edited plan. Fields of an answer that the check works out itself are ignored."""

    model_config = ConfigDict(extra="ignore")


class EditedStowed(_EditedModel):
    """Units of one kind. If mass and volume are not given, they come from the request."""

    unit_id: UnitId = Field(examples=["all/low"])
    count: Annotated[int, Field(ge=0, le=10_000), WHOLE]
    each_kg: Annotated[float, Field(ge=0, le=1000), NUMBER] | None = Field(default=None)
    each_l: Annotated[float, Field(ge=0, le=1000), NUMBER] | None = Field(default=None)


Units = Annotated[list[EditedStowed], Field(max_length=2000)]


class EditedLoad(_EditedModel):
    """What one person carries on one trip."""

    person_id: Id
    pack: Units
    sled_id: Id | None = Field(default=None)
    sled: Units = Field(default=[])
    water_kg: Annotated[float, Field(ge=0, le=100), NUMBER] | None = Field(
        default=None, description="If not given, the amount in the request."
    )
    lunch_kg: Annotated[float, Field(ge=0, le=100), NUMBER] | None = Field(
        default=None, description="If not given, the amount in the night set."
    )


class EditedTrip(_EditedModel):
    """One party on one leg."""

    day: Annotated[int, Field(ge=1, le=400), WHOLE]
    step: Annotated[int, Field(ge=1, le=100), WHOLE]
    from_: Id = Field(alias="from")
    to: Id
    loads: list[EditedLoad] = Field(max_length=100)


class EditedStock(_EditedModel):
    """What is at one place after a night."""

    day: Annotated[int, Field(ge=0, le=400), WHOLE]
    place: Id
    units: Units


class EditedFlyer(_EditedModel):
    """Somebody on a flight."""

    person_id: Id


class EditedFlight(_EditedModel):
    """Who and what is on one flight."""

    flight_id: Id
    people: list[EditedFlyer] = Field(default=[], max_length=50)
    units: Units = Field(default=[])


class EditedPlan(_EditedModel):
    """A plan to check. You can send the plan of an answer as it is, or edit its loads first."""

    trips: list[EditedTrip] = Field(max_length=2000)
    flights: list[EditedFlight] = Field(default=[], max_length=40)
    stock: list[EditedStock] = Field(
        default=[],
        max_length=5000,
        description="Leave this out after an edit. The check then works out the stock from the "
        "loads.",
    )
