"""A plan sent to the service: one of its answers as it is, or edited by hand."""

from __future__ import annotations

from typing import Annotated, Any, TypeAlias

from pydantic import Field, WithJsonSchema

from api_schema.strict import NUMBER, WHOLE, Id, StrictModel, UnitId

WorkedOut: TypeAlias = Annotated[
    Any,
    Field(default=None),
    WithJsonSchema({"description": "The check computes this itself and ignores what you send."}),
]


class EditedStowed(StrictModel):
    """Units of one kind. If mass and volume are not given, the check computes them."""

    unit_id: UnitId = Field(examples=["all/low"])
    count: Annotated[int, Field(ge=0, le=10_000), WHOLE]
    each_kg: Annotated[float, Field(ge=0, le=1000), NUMBER] | None = Field(default=None)
    each_l: Annotated[float, Field(ge=0, le=1000), NUMBER] | None = Field(default=None)
    name: WorkedOut


Units = Annotated[list[EditedStowed], Field(max_length=2000)]


class EditedLoad(StrictModel):
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
    pack_kg: WorkedOut
    pack_cap_kg: WorkedOut
    pack_l: WorkedOut
    sled_kg: WorkedOut
    sled_cap_kg: WorkedOut
    sled_l: WorkedOut
    total_kg: WorkedOut
    load_limit_kg: WorkedOut
    load_fraction: WorkedOut


class EditedTrip(StrictModel):
    """One party on one leg."""

    day: Annotated[int, Field(ge=1, le=400), WHOLE]
    step: Annotated[int, Field(ge=1, le=100), WHOLE]
    from_: Id = Field(alias="from")
    to: Id
    loads: list[EditedLoad] = Field(max_length=100)
    date: WorkedOut
    leg_id: WorkedOut
    mode: WorkedOut
    direction: WorkedOut


class EditedStock(StrictModel):
    """What is at one place after a night."""

    day: Annotated[int, Field(ge=0, le=400), WHOLE]
    place: Id
    units: Units
    date: WorkedOut
    kg: WorkedOut
    cook_groups: WorkedOut


class EditedFlyer(StrictModel):
    """Somebody on a flight."""

    person_id: Id
    kg: WorkedOut


class EditedFlight(StrictModel):
    """Who and what is on one flight."""

    flight_id: Id
    people: list[EditedFlyer] = Field(default=[], max_length=50)
    units: Units = Field(default=[])
    direction: WorkedOut
    seats: WorkedOut
    people_kg: WorkedOut
    cargo_kg: WorkedOut
    payload_kg: WorkedOut
    load_fraction: WorkedOut
    cargo_l: WorkedOut
    volume_l: WorkedOut
    fuel_aboard: WorkedOut


class EditedPlan(StrictModel):
    """A plan to check. You can send the plan of an answer as it is, or edit its loads first.

    You need not mend totals and shares after an edit. The answer has the right ones in `loads`.
    """

    trips: list[EditedTrip] = Field(max_length=2000)
    flights: list[EditedFlight] = Field(default=[], max_length=40)
    stock: list[EditedStock] = Field(
        default=[],
        max_length=5000,
        description="Leave this out after an edit. The check then works out the stock from the "
        "loads.",
    )
    days: WorkedOut
    taken_along: WorkedOut
    used: WorkedOut
    comes_down: WorkedOut
    keepers: WorkedOut
    weakest: WorkedOut
    pins: WorkedOut
    containers: WorkedOut
    units: WorkedOut
