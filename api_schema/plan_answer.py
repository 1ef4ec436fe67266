"""A plan on the wire: who carries what on which trip, and what stands where each night.

Numbers carry their unit in the field's name: kilograms with three decimals are exact grams,
litres with three decimals exact millilitres. `peak` and `load_fraction` are shares of a cap.
"""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from api_schema.check_answer import CheckAnswer, PeakAnswer
from api_schema.common_answer import AssumptionAnswer, CautionAnswer
from api_schema.flight_answer import FlightAnswer
from api_schema.load_answer import StowedAnswer, TripAnswer
from api_schema.stock_answer import StockAnswer, UsedAnswer
from api_schema.strict import IsoDate, Number, StrictModel


class DayAnswer(StrictModel):
    """One day of the calendar with its date."""

    day: int
    date: IsoDate | None
    places: dict[str, list[str]] = Field(description="Places visited, by rope team.")
    kind: str = Field(description="Derived from the places.", examples=["carry"])
    note: str | None


class PlanDocument(StrictModel):
    """The whole ledger of a trip. To change it by hand, edit `trips[].loads[]`."""

    days: list[DayAnswer]
    trips: list[TripAnswer]
    taken_along: list[StowedAnswer] = Field(description="All that stands at the start.")
    stock: list[StockAnswer]
    used: list[UsedAnswer]
    flights: list[FlightAnswer] = Field(description="In the order of the request.")
    comes_down: list[StowedAnswer] = Field(description="All that is back at the end.")


class ShortFigureAnswer(StrictModel):
    """One quantity that the trip needs, in short; `POST /v1/requirements` tells all of it."""

    figure_id: str = Field(examples=["water_melted"])
    about: dict[str, str | int] = Field(examples=[{"place_id": "camp-1"}])
    value: Number
    unit: str = Field(examples=["L/person-night"])
    formula: str


class GoalAnswer(StrictModel):
    """One goal, in the order in which goals are taken."""

    goal_id: str = Field(examples=["peak_load"])
    value: int
    bound: int | None = Field(description="No plan can be below it; null where none is known.")
    proven: bool
    unit: str = Field(examples=["1/10,000"])


class SolveAnswer(StrictModel):
    """How the answer was found."""

    solver: str
    variables: int
    constraints: int
    seconds: dict[str, float] = Field(description="Wall time by stage.")


class _Answer(StrictModel):
    """What every outcome says."""

    reference: str | None
    title: str | None
    start_date: IsoDate | None
    assumptions: list[AssumptionAnswer]
    cautions: list[CautionAnswer]


class SolvedAnswer(_Answer):
    """A plan that passed the independent check."""

    outcome: Literal["solved"]
    peak: PeakAnswer | None = Field(description="Null for a calendar without trips.")
    bound: float | None = Field(description="No plan has a lower peak.")
    gap: float | None = Field(description="Peak less bound, over peak.")
    proven: bool = Field(description="Whether no plan can have a lower peak.")
    greedy_peak: float | None = Field(
        description="What packing by hand, heaviest first, reaches; null where it finds no plan."
    )
    goals: list[GoalAnswer]
    plan: PlanDocument
    requirements: list[ShortFigureAnswer] = Field(
        description="What the trip needs, by place, cook group and person, without the figures of "
        "single days and trips. Those, and the sources and inputs of all: "
        "`POST /v1/requirements` with the same body."
    )
    check: CheckAnswer
    solve: SolveAnswer


class ConflictAnswer(StrictModel):
    """One rule that takes part in making a request infeasible."""

    rule_id: str
    message: str
    instead: list[str] = Field(description="Changes that would be allowed, where any are known.")


class InfeasibleAnswer(_Answer):
    """No plan can exist; this was confirmed a second time before it was said."""

    outcome: Literal["infeasible"]
    conflicts: list[ConflictAnswer]
    solve: SolveAnswer


class NoPlanInTimeAnswer(_Answer):
    """Time ran out before a plan was found; there may be one."""

    outcome: Literal["no_plan_in_time"]
    bound: float | None = Field(description="What is known of the peak.")
    solve: SolveAnswer


class FailedAnswer(_Answer):
    """The service failed, or withheld a plan that its own check refused. Our fault."""

    outcome: Literal["failed"]
    code: str = Field(examples=["withheld_plan"])
    detail: str


OutcomeAnswer = SolvedAnswer | InfeasibleAnswer | NoPlanInTimeAnswer | FailedAnswer
