"""Planned against used, and rates for the next request."""

from __future__ import annotations

from typing import Any

from pydantic import ConfigDict, Field

from api_schema.common_answer import CautionAnswer
from api_schema.report import LoadPart
from api_schema.strict import Moment, StrictModel


class NightsReportAnswer(StrictModel):
    """Person-nights of one kitchen at one place."""

    cook_group: str
    place: str
    planned_first: int | None = Field(
        description="In the first plan of the line. It is null if that plan was deleted."
    )
    planned: int = Field(description="In this plan.")
    spent: int


class SetsReportAnswer(StrictModel):
    """Night sets of one kind."""

    unit_id: str
    cook_group: str
    set_id: str
    taken: int
    planned: int = Field(description="Sets that the plan eats in the nights that were spent.")
    gone: int = Field(description="Lost, spoilt, or taken along by others.")
    home: int | None = Field(description="It is null if nothing was said of this kind.")
    used: int | None
    ratio: float | None = Field(description="Used sets divided by planned sets.")


class ContainersReportAnswer(StrictModel):
    """Fuel containers of one kind."""

    unit_id: str
    cook_group: str
    taken: int
    planned_unopened: int = Field(description="How many are still full at the end of the plan.")
    gone: int
    unopened: int | None = Field(description="It is null if nothing was said of this kind.")
    opened: int | None
    not_accounted: int | None = Field(
        description="Neither at home nor gone. Their fuel counts as burnt."
    )


class FuelReportAnswer(StrictModel):
    """Fuel of one kitchen, for all who eat from it."""

    cook_group: str
    person_nights: int
    nights: int
    planned_ml: int = Field(description="For the nights that were spent, without the margin.")
    planned_with_margin_ml: int
    used_ml: int | None = Field(description="It is null if no container of this kitchen is given.")
    spilt_ml: int
    planned_ml_per_person_night: float | None = Field(description="Without the margin.")
    used_ml_per_person_night: float | None
    water_l: float | None = Field(
        description="Water that the plan melts and boils in these nights. Nobody measured it. It "
        "is null if the plan does not know it for every place."
    )
    planned_ml_per_litre: float | None
    used_ml_per_litre: float | None
    ratio: float | None = Field(description="Used fuel divided by planned fuel without margin.")


class HoursReportAnswer(StrictModel):
    """Hours of one leg in one direction, over the trips that were measured."""

    model_config = ConfigDict(validate_by_name=True)

    leg_id: str
    from_: str = Field(alias="from")
    to: str
    days: list[int]
    planned_h: float | None = Field(description="It is null if the plan has no hours for the leg.")
    measured_h: float = Field(description="The mean of the measured trips.")
    ratio: float | None


class LoadReportAnswer(StrictModel):
    """One load on a scale."""

    person_id: str
    day: int
    step: int
    part: LoadPart
    planned_kg: float
    weighed_kg: float
    ratio: float | None


class WeighedReportAnswer(StrictModel):
    """One unit on a scale."""

    unit_id: str
    planned_kg: float
    weighed_kg: float
    ratio: float | None


class RateAnswer(StrictModel):
    """One figure for the next request, in the form of a request."""

    pointer: str = Field(
        description="Where it stands in `next_request`, as a JSON Pointer.",
        examples=["/menu/night_sets/0/fuel"],
    )
    value: str | float = Field(examples=["212 mL"])
    planned: str | float | None = Field(
        description="It is null if the plan has no such figure.", examples=["170 mL"]
    )
    ratio: float | None
    based_on: str = Field(examples=["12 person-nights on 4 nights"])
    says_little: bool = Field(
        description="Whether it comes from fewer than 5 nights or 3 trips. Then do not plan with "
        "it alone (common practice, no source)."
    )
    why: str


class TripReportEntryAnswer(StrictModel):
    """A stored report in short."""

    report_id: str = Field(examples=["report_01m894y1x3y07966fb6kk0wj7j"])
    plan_id: str
    stored_at: Moment
    say: list[str]


class TripReportListAnswer(StrictModel):
    """The stored reports on a plan."""

    reports: list[TripReportEntryAnswer] = Field(description="The newest first.")


class TripReportAnswer(StrictModel):
    """What was planned against what was used. Read `say` first."""

    plan_id: str
    reference: str | None
    first_plan_id: str = Field(description="The first plan of the line that is still stored.")
    say: list[str]
    nights: list[NightsReportAnswer]
    night_sets: list[SetsReportAnswer]
    containers: list[ContainersReportAnswer]
    fuel: list[FuelReportAnswer]
    hours: list[HoursReportAnswer]
    loads: list[LoadReportAnswer]
    loads_ratio: float | None = Field(description="All weighed loads divided by what was planned.")
    weighed: list[WeighedReportAnswer]
    counted_otherwise: list[str] = Field(
        description="Differences that counts on the way found, and of which nobody said that they "
        "were lost. They count as used."
    )
    rates: list[RateAnswer]
    next_request: dict[str, Any] = Field(
        description="The members of a request for a plan that contain the rates, as a merge patch "
        "(RFC 7396) on the request of this plan. Lists are whole. Everything in them that is not "
        "in `rates` is as in that request."
    )
    not_given: list[str] = Field(
        description="Rates that follow from the report but have no place in a request, and why."
    )
    remarks: list[str]
    cautions: list[CautionAnswer]


class StoredTripReportAnswer(TripReportAnswer):
    """A report as it is stored with its plan. Read `say` first."""

    report_id: str = Field(examples=["report_01m894y1x3y07966fb6kk0wj7j"])
    stored_at: Moment
