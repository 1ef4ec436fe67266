"""A plan on the wire: who carries what on which trip, and what stands where each night.

Numbers carry their unit in the field's name: kilograms with three decimals are exact grams,
litres with three decimals exact millilitres. `peak` and `load_fraction` are shares of a cap.
The file is long because a plan is one document, and its parts are read together.
"""

from __future__ import annotations

from typing import Literal

from pydantic import ConfigDict, Field

from api_schema.flights import FlightDirectionName
from api_schema.route import LegModeName
from api_schema.strict import IsoDate, Number, StrictModel


class StowedAnswer(StrictModel):
    """Units of one kind in a pack, on a sled or at a place."""

    unit_id: str = Field(
        description="`tent` shared, `lead/sleeping-bag` personal, `all/low` a bag of night sets, "
        "`all/bottle` a full container, `all/bottle/open-1` the first opened, "
        "`trash/camp-1/1-1` a sack, `trash/camp-1/all/1-1` one of a cook group.",
        examples=["all/low"],
    )
    name: str | None = Field(description="The name given in the request.")
    count: int
    each_kg: float = Field(
        description="Mass that one adds to the load; 0 for what is in use.", examples=[0.98]
    )
    each_l: float = Field(description="Volume that one adds to the load.", examples=[2.3])


class LoadAnswer(StrictModel):
    """What one person carries on one trip, gross."""

    person_id: str
    pack_kg: float = Field(description="Units, water and lunch.")
    pack_cap_kg: float = Field(description="The cap on the pack, never above a load limit.")
    pack_l: float
    water_kg: float
    lunch_kg: float
    sled_id: str | None
    sled_kg: float = Field(description="Units and the sled's tare; 0 without a sled.")
    sled_cap_kg: float = Field(
        description="The hauler's cap times the leg's factor; of two haulers the less of what "
        "their caps over their shares allow."
    )
    sled_l: float
    total_kg: float
    load_limit_kg: float | None = Field(
        description="What somebody weak or hurt carries at most, pack and sled together; null for "
        "others."
    )
    load_fraction: float = Field(
        description="The largest load over its cap; a load limit is one.", examples=[0.8731]
    )
    pack: list[StowedAnswer]
    sled: list[StowedAnswer]


class TripAnswer(StrictModel):
    """One party on one leg."""

    model_config = ConfigDict(validate_by_name=True)

    day: int = Field(description="Counted from 1.")
    date: IsoDate | None
    step: int = Field(description="Which of the day's trips, counted from 1.")
    from_: str = Field(alias="from")
    to: str
    leg_id: str
    mode: LegModeName
    direction: Literal["up", "down"]
    loads: list[LoadAnswer]


class CookGroupStockAnswer(StrictModel):
    """How long a cook group's food and fuel at a place would last all of its people."""

    cook_group: str
    nights_of_food: float = Field(description="Night sets there over the group's people.")
    nights_of_fuel: float | None = Field(
        description="Fuel there over what the group burns in a night at that place, margin "
        "included; null where it burns none."
    )
    night_sets: int
    fuel_ml: int


class StockAnswer(StrictModel):
    """What stands at one place after the night of a day; day 0 is the start."""

    day: int
    date: IsoDate | None
    place: str
    kg: float
    cook_groups: list[CookGroupStockAnswer]
    units: list[StowedAnswer]


class UsedAnswer(StrictModel):
    """What one cook group uses in one night."""

    day: int
    date: IsoDate | None
    place: str
    cook_group: str
    people: int
    set_id: str
    night_sets: int
    bags: int
    fuel_ml: int = Field(description="Margin included.")
    energy_kcal_each: int | None


class DayAnswer(StrictModel):
    """One day of the calendar with its date."""

    day: int
    date: IsoDate | None
    places: dict[str, list[str]] = Field(description="Places visited, by rope team.")
    kind: str = Field(description="Derived from the places.", examples=["carry"])
    note: str | None


class FlyingPersonAnswer(StrictModel):
    """Somebody on a flight."""

    person_id: str
    kg: float = Field(description="As weighed for the aircraft, or reckoned, with first lunch.")


class FlightAnswer(StrictModel):
    """Who and what is on one flight."""

    flight_id: str
    direction: FlightDirectionName
    people: list[FlyingPersonAnswer]
    seats: int
    people_kg: float
    cargo_kg: float
    payload_kg: float = Field(description="People and cargo together, at most.")
    load_fraction: float = Field(description="People and cargo over the payload, rounded up.")
    cargo_l: float
    volume_l: float | None = Field(description="Room for cargo; null where it was not said.")
    fuel_aboard: bool = Field(
        description="Whether containers that hold or held fuel are aboard. The pilot decides."
    )
    units: list[StowedAnswer] = Field(
        description="Cargo, whatever rides outside packs with its whole volume. `sled/sled-1` is "
        "the empty sled."
    )


class PlanDocument(StrictModel):
    """The whole ledger of a trip. To change it by hand, edit `trips[].loads[]`."""

    days: list[DayAnswer]
    trips: list[TripAnswer]
    taken_along: list[StowedAnswer] = Field(description="All that stands at the start.")
    stock: list[StockAnswer]
    used: list[UsedAnswer]
    flights: list[FlightAnswer] = Field(description="In the order of the request.")
    comes_down: list[StowedAnswer] = Field(description="All that is back at the end.")


class PeakAnswer(StrictModel):
    """The largest load fraction of a plan, and where it is."""

    model_config = ConfigDict(validate_by_name=True)

    load_fraction: float
    person_id: str
    day: int
    date: IsoDate | None
    step: int
    from_: str = Field(alias="from")
    to: str
    binding: Literal["pack", "sled", "total", "limit"]


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


class FindingAnswer(StrictModel):
    """What the independent check has to say of one rule: broken, where, and by how much."""

    rule_id: str
    message: str
    amount: int
    unit: str
    where: dict[str, str | int]
    instead: list[str] = Field(description="Changes that would be allowed, where any are known.")


class RemarkAnswer(FindingAnswer):
    """A preference that is not kept or a word of caution; neither makes a plan wrong."""

    kind: Literal["preference", "caution"]
    reason: str | None = Field(
        description="The leader's, where a hard rule was stated as a caution; null elsewhere."
    )


class CheckAnswer(StrictModel):
    """The verdict of the independent check."""

    passed: bool
    rules_checked: int = Field(description="How many rules were asked of this request and plan.")
    findings: list[FindingAnswer] = Field(description="Hard rules that are broken.")
    remarks: list[RemarkAnswer]


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
