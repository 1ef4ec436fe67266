"""A plan on the wire: who carries what on which trip, and what stands where each night.

Numbers have their unit in the field's name. Kilograms with three decimals are exact grams, litres
with three decimals exact millilitres. `peak` and `load_fraction` are shares of a cap.
"""

from __future__ import annotations

from typing import Literal

from pydantic import ConfigDict, Field

from api_schema.check_answer import CheckAnswer, PeakAnswer
from api_schema.common_answer import AssumptionAnswer, CautionAnswer
from api_schema.container_answer import ContainerAnswer
from api_schema.cost_answer import CostsAnswer
from api_schema.diagnosis_answer import DiagnosisAnswer
from api_schema.flight_answer import FlightAnswer
from api_schema.keeper_answer import KeeperAnswer
from api_schema.load_answer import StowedAnswer, TripAnswer
from api_schema.pins import PinAnswer
from api_schema.rest_answer import RestAnswer
from api_schema.stock_answer import StockAnswer, UsedAnswer
from api_schema.strict import IsoDate, Number, StrictModel
from api_schema.unit_answer import PlanUnitAnswer
from api_schema.weakest_answer import WeakestAnswer


class DayAnswer(StrictModel):
    """One day of the calendar with its date."""

    day: int
    date: IsoDate | None
    places: dict[str, list[str]] = Field(description="The places visited, by rope team.")
    kind: str = Field(
        description="The kind of day, which follows from the places. `rest`: nobody travels. "
        "`carry`: outbound and back to the same camp. `back_carry`: homeward and back to the same "
        "camp. `carry_both_ways`: to the same camp in another way. `move`: outbound to another "
        "camp. `descent`: homeward to another camp. `relay`: to another camp, partly outbound and "
        "partly homeward. `summit`: a summit is visited. `split`: the rope teams have different "
        "kinds of day.",
        examples=["carry"],
    )
    note: str | None


class PlanDocument(StrictModel):
    """The whole ledger of an expedition. To change it by hand, edit `trips[].loads[]`."""

    days: list[DayAnswer]
    trips: list[TripAnswer]
    keepers: list[KeeperAnswer] = Field(
        description="Who has each single piece of shared kit, and each bundle of small alike "
        "things, in the order of the request. It follows from the loads."
    )
    weakest: WeakestAnswer | None = Field(
        description="What the people with the least cap carry compared with the whole party, and "
        "why. `null`: all have the same cap."
    )
    pins: list[PinAnswer] = Field(description="The pins of the request, in its order.")
    containers: list[ContainerAnswer] = Field(
        description="Why each fuel container is taken along. A re-plan has none.",
    )
    taken_along: list[StowedAnswer] = Field(
        description="Everything that is at the start place before the first trip."
    )
    stock: list[StockAnswer]
    used: list[UsedAnswer]
    flights: list[FlightAnswer] = Field(description="The flights, in the order of the request.")
    comes_down: list[StowedAnswer] = Field(
        description="Everything that is back at the start place at the end."
    )
    units: list[PlanUnitAnswer] = Field(
        description="What each unit id of the plan stands for, with a name for print."
    )


class ShortFigureAnswer(StrictModel):
    """One quantity that the expedition needs. `POST /v1/requirements` gives its inputs."""

    figure_id: str = Field(examples=["water_melted"])
    about: dict[str, str | int] = Field(examples=[{"place_id": "camp-1"}])
    value: Number
    unit: str = Field(examples=["L/person-night"])
    formula: str


class GoalAnswer(StrictModel):
    """One goal, in the order in which the search takes them."""

    goal_id: str = Field(examples=["peak_load"])
    value: int
    bound: int | None = Field(
        description="The lower bound: no plan has a smaller value. It is null if none is known."
    )
    proven: bool
    unit: str = Field(examples=["1/10,000"])


class SolveAnswer(StrictModel):
    """How the answer was found."""

    solver: str
    variables: int
    constraints: int
    seconds: dict[str, float] = Field(description="Wall time of each stage.")
    repeatable: bool = Field(
        description="Whether the same request gives the same answer again. It is false if the "
        "time limit or a cancellation ended the search, or if `racing` was asked for."
    )


class _Answer(StrictModel):
    """What every outcome contains."""

    reference: str | None
    title: str | None
    start_date: IsoDate | None
    assumptions: list[AssumptionAnswer]
    cautions: list[CautionAnswer]
    rest: RestAnswer | None = Field(
        description="About a plan that was made on the way, for the rest of an expedition. It is "
        "null for a plan from the start."
    )


class SolvedAnswer(_Answer):
    """A plan that passed the independent check."""

    outcome: Literal["solved"]
    peak: PeakAnswer | None = Field(
        description="The peak load. It is null for a calendar without trips."
    )
    bound: float | None = Field(
        description="The lower bound of the peak load: no plan has a lower peak."
    )
    gap: float | None = Field(
        description="The peak load minus its lower bound, divided by the peak load."
    )
    proven: bool = Field(description="Whether it is proven that no plan has a lower peak.")
    greedy_peak: float | None = Field(
        description="The peak load of the hand-packing heuristic, which packs the heaviest units "
        "first. It is null if the heuristic finds no plan."
    )
    greedy_reason: str | None = Field(
        description="On which day the hand-packing heuristic failed, and why. It is null if it "
        "found a plan, or if there was no new search."
    )
    costs: CostsAnswer | None = Field(
        description="What everything in the plan costs, at the prices of the request. It is null "
        "if the request gives no price."
    )
    goals: list[GoalAnswer]
    plan: PlanDocument
    requirements: list[ShortFigureAnswer] = Field(
        description="What the expedition needs, by place, cook group and person. `POST "
        "/v1/requirements` with the same body gives the figures of single days and trips too, and "
        "the source and inputs of every figure."
    )
    check: CheckAnswer
    solve: SolveAnswer


class RemedyAnswer(StrictModel):
    """A change to the request that would be allowed."""

    kind: Literal["raise", "leave_out", "share", "reserve", "other"] = Field(
        description="What it changes. `raise`: a cap or limit. `leave_out`: what is taken. "
        "`share`: who carries it. `reserve`: a reserve."
    )
    text: str
    amount: int | None = Field(description="By how much, if that is known.")
    unit: str | None = Field(examples=["g"])
    is_decision: bool = Field(
        description="Whether this is the leader's decision. Reserves are, and they come last."
    )


class ConflictTripAnswer(StrictModel):
    """The trip on which a conflict shows."""

    model_config = ConfigDict(validate_by_name=True)

    day: int
    step: int
    from_: str = Field(alias="from")
    to: str


class OccurrenceAnswer(StrictModel):
    """One place or time at which the cause of a conflict shows."""

    rule_id: str
    message: str
    pointer: str | None = Field(
        description="The part of the request that it is about, as a JSON Pointer.",
        examples=["/roster/2/pack_cap"],
    )
    person_id: str | None
    trip: ConflictTripAnswer | None
    night: int | None = Field(description="The night after this day.")
    amount: int | None = Field(description="How much is missing or too much, if that is known.")
    unit: str | None = Field(examples=["g"])
    where: dict[str, str | int] = Field(
        description="Where it is: day, step, place, person, cook group, unit, as far as it has any."
    )


class ConflictAnswer(OccurrenceAnswer):
    """One cause that makes the request infeasible, at the place where most is missing.

    Conflicts of single persons come before those of a whole party.
    """

    more: list[OccurrenceAnswer] = Field(
        description="Other places and times at which the same cause shows."
    )
    remedies: list[RemedyAnswer] = Field(
        description="Changes that would be allowed, as far as any are known."
    )


class InfeasibleAnswer(_Answer):
    """No plan can exist: a broken rule, a proof or a second search shows it."""

    outcome: Literal["infeasible"]
    conflicts: list[ConflictAnswer]
    diagnosis: DiagnosisAnswer | None = Field(
        description="A set of requirements that clash, and changes that help. Each was shown to "
        "help by solving again. It is null if the time ended first, or if you asked to "
        "finish early."
    )
    solve: SolveAnswer


class NoPlanInTimeAnswer(_Answer):
    """The time ended before a plan was found. There may be one."""

    outcome: Literal["no_plan_in_time"]
    bound: float | None = Field(
        description="The lower bound of the peak load, as far as it is known."
    )
    solve: SolveAnswer


class FailedAnswer(_Answer):
    """The service failed, or it withheld a plan that its own check refused. The fault is ours."""

    outcome: Literal["failed"]
    code: str = Field(examples=["withheld_plan"])
    detail: str


OutcomeAnswer = SolvedAnswer | InfeasibleAnswer | NoPlanInTimeAnswer | FailedAnswer
