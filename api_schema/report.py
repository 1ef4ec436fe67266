"""What came home after an expedition, and what was measured on the way."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, StringConstraints

from api_schema.quantities import Duration, Mass, Volume
from api_schema.strict import WHOLE, Id, StrictModel, UnitId

LoadPart = Literal["pack", "sled", "both"]
Remark = Annotated[str, StringConstraints(min_length=1, max_length=500)]
_Count = Annotated[int, Field(ge=0, le=10_000), WHOLE]
_Day = Annotated[int, Field(ge=1, le=60), WHOLE]
_Step = Annotated[int, Field(ge=1, le=60), WHOLE]


class SetsHomeRequest(StrictModel):
    """Night sets of one kind that nobody ate: they came home, or were left behind good to eat."""

    unit_id: UnitId = Field(examples=["all/high"])
    bags: _Count = Field(default=0, description="Full bags.")
    sets: _Count = Field(default=0, description="Single sets from bags that were opened.")


class ContainersHomeRequest(StrictModel):
    """Fuel containers of one kind, as they came home."""

    unit_id: UnitId = Field(examples=["all/bottle"])
    full: _Count = Field(default=0)
    open: list[Volume] = Field(
        default=[],
        max_length=200,
        description="What is left in each opened container. An opened container that is not in "
        "the list counts as empty.",
        examples=[["300 mL"]],
    )
    empty: _Count | None = Field(
        default=None,
        description="If not given, all other containers that were taken count as burnt empty.",
    )


class GoneRequest(StrictModel):
    """Units that nobody used: lost, spoilt, or given to others. Not what a re-plan has as lost."""

    unit_id: UnitId
    count: Annotated[int, Field(ge=1, le=10_000), WHOLE] = Field(
        default=1, description="Bags of night sets, or full containers."
    )


class SpiltRequest(StrictModel):
    """Fuel that ran out of a container without being burnt."""

    cook_group: Id
    amount: Volume = Field(examples=["250 mL"])


class NightsSpentRequest(StrictModel):
    """Nights that a kitchen really spent at a place."""

    place: Id
    nights: Annotated[int, Field(ge=0, le=120), WHOLE]
    cook_group: Id | None = Field(default=None, description="If not given, every kitchen.")


class HoursRequest(StrictModel):
    """How long one trip really took."""

    day: _Day
    step: _Step | None = Field(
        default=None, description="The trip within its day. It is needed if the day has several."
    )
    person_id: Id | None = Field(
        default=None,
        description="One of the party. It is needed if several parties travel at that step.",
    )
    time: Duration = Field(examples=["6.5 h"])


class WeighedLoadRequest(StrictModel):
    """What one person's load weighed."""

    person_id: Id
    day: _Day
    step: _Step | None = Field(
        default=None, description="The trip within its day. If not given, the person's first."
    )
    part: LoadPart = Field(
        default="both", description="What was weighed: the pack, the sled, or both together."
    )
    mass: Mass = Field(examples=["24.5 kg"])


class WeighedUnitRequest(StrictModel):
    """What one unit weighs on a scale: an item, or a full bag of night sets."""

    unit_id: UnitId = Field(examples=["tent"])
    mass: Mass = Field(examples=["4.2 kg"])


class TripReportRequest(StrictModel):
    """What came home and what was measured. Of what is not listed nothing is said."""

    night_sets: list[SetsHomeRequest] = Field(default=[], max_length=400)
    containers: list[ContainersHomeRequest] = Field(default=[], max_length=200)
    gone: list[GoneRequest] = Field(default=[], max_length=200)
    spilt: list[SpiltRequest] = Field(default=[], max_length=50)
    nights: list[NightsSpentRequest] = Field(
        default=[],
        max_length=200,
        description="Replaces the nights of the plan for the kitchens that it names. If not "
        "given, the nights of the plan, with everything that its re-plans changed.",
    )
    hours: list[HoursRequest] = Field(default=[], max_length=400)
    loads: list[WeighedLoadRequest] = Field(default=[], max_length=2000)
    weighed: list[WeighedUnitRequest] = Field(default=[], max_length=800)
    remarks: list[Remark] = Field(
        default=[], max_length=100, description="In your own words. The report repeats them."
    )
