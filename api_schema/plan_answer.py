"""A plan on the wire: who carries what on which trip, and what stands where each night.

Numbers have their unit in the field's name. Kilograms with three decimals are exact grams, litres
with three decimals exact millilitres. `peak` and `load_fraction` are shares of a cap.
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
        description="For example `tent` for a shared item, `lead/sleeping-bag` for a personal "
        "item, `all/low` for a bag of night sets, `all/bottle` for a full container, "
        "`all/bottle/open-1` for the first container opened, `trash/camp-1/1-1` for a sack.",
        examples=["all/low"],
    )
    name: str | None = Field(description="The name given in the request.")
    count: int
    each_kg: float = Field(
        description="The mass that one unit adds to the load. It is 0 for a unit in use.",
        examples=[0.98],
    )
    each_l: float = Field(description="The volume that one unit adds to the load.", examples=[2.3])


class LoadAnswer(StrictModel):
    """What one person carries on one trip, gross."""

    person_id: str
    pack_kg: float = Field(description="The mass of the units, the water and the lunch.")
    pack_cap_kg: float
    pack_l: float
    water_kg: float
    lunch_kg: float
    sled_id: str | None
    sled_kg: float = Field(
        description="The mass of the units and the empty sled. It is 0 without a sled."
    )
    sled_cap_kg: float = Field(
        description="The hauler's cap times the leg's factor. With two haulers, each cap is "
        "divided by the hauler's share, and the smaller result counts."
    )
    sled_l: float
    total_kg: float
    load_fraction: float = Field(
        description="The load as a share of its cap. Of pack, sled and "
        "both together, the largest share counts.",
        examples=[0.8731],
    )
    pack: list[StowedAnswer]
    sled: list[StowedAnswer]


class TripAnswer(StrictModel):
    """One party on one leg."""

    model_config = ConfigDict(validate_by_name=True)

    day: int = Field(description="Counted from 1.")
    date: IsoDate | None
    step: int = Field(description="The number of the trip within its day, counted from 1.")
    from_: str = Field(alias="from")
    to: str
    leg_id: str
    mode: LegModeName
    direction: Literal["up", "down"]
    loads: list[LoadAnswer]


class CookGroupStockAnswer(StrictModel):
    """How long a cook group's food and fuel at a place would last for all of its people."""

    cook_group: str
    nights_of_food: float = Field(
        description="The number of night sets there, divided by the number of people in the group."
    )
    nights_of_fuel: float | None = Field(
        description="The fuel there, divided by what the group burns in one night at that place "
        "with the margin. It is null if the group burns none."
    )
    night_sets: int
    fuel_ml: int


class StockAnswer(StrictModel):
    """What is at one place after the night of a day. Day 0 is the start."""

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
    fuel_ml: int = Field(description="With the margin.")
    energy_kcal_each: int | None


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


class FlyingPersonAnswer(StrictModel):
    """Somebody on a flight."""

    person_id: str
    kg: float = Field(
        description="The flying mass, as weighed or estimated. On a fly-in it "
        "includes the first lunch."
    )


class FlightAnswer(StrictModel):
    """Who and what is on one flight."""

    flight_id: str
    direction: FlightDirectionName
    people: list[FlyingPersonAnswer]
    seats: int
    people_kg: float
    cargo_kg: float
    payload_kg: float = Field(description="The most that people and cargo may weigh together.")
    load_fraction: float = Field(
        description="People and cargo as a share of the payload, rounded up."
    )
    cargo_l: float
    volume_l: float | None = Field(
        description="The volume for cargo. It is null if the request does not give it."
    )
    fuel_aboard: bool = Field(
        description="Whether containers that contain or contained fuel are aboard. The pilot "
        "decides."
    )
    units: list[StowedAnswer] = Field(
        description="The cargo. Items that are lashed outside packs on the ground count with "
        "their whole volume here. `sled/sled-1` is the empty sled."
    )


class PlanDocument(StrictModel):
    """The whole ledger of an expedition. To change it by hand, edit `trips[].loads[]`."""

    days: list[DayAnswer]
    trips: list[TripAnswer]
    taken_along: list[StowedAnswer] = Field(
        description="Everything that is at the start place before the first trip."
    )
    stock: list[StockAnswer]
    used: list[UsedAnswer]
    flights: list[FlightAnswer] = Field(description="The flights, in the order of the request.")
    comes_down: list[StowedAnswer] = Field(
        description="Everything that is back at the start place at the end."
    )


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
    binding: Literal["pack", "sled", "total"]


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


class FindingAnswer(StrictModel):
    """One place where a rule is broken: where, and by how much."""

    rule_id: str
    message: str
    amount: int
    unit: str
    where: dict[str, str | int]
    instead: list[str] = Field(description="Changes that would be allowed, if any are known.")


class RemarkAnswer(FindingAnswer):
    """A preference that is not met, an advisory or a waived rule. The plan is still valid."""

    kind: Literal["preference", "caution"]
    reason: str | None = Field(
        description="The leader's reason, if this is a hard rule that the request waives. "
        "Otherwise null."
    )


class CheckAnswer(StrictModel):
    """The verdict of the independent check."""

    passed: bool
    rules_checked: int = Field(
        description="The number of rules that were checked for this request and plan."
    )
    findings: list[FindingAnswer] = Field(description="The hard rules that are broken.")
    remarks: list[RemarkAnswer]


class AssumptionAnswer(StrictModel):
    """A value that the service chose because none was given, or a rule that the request changed."""

    pointer: str = Field(
        description="JSON Pointer of the field with which a request gives this value.",
        examples=["/roster/0/water"],
    )
    what: str = Field(examples=["The water carried on every trip."])
    value: str = Field(examples=["2 L"])
    source_status: str = Field(
        description="Where the value comes from. It is `stated in the request` for a changed rule.",
        examples=["common practice, no source"],
    )


class CautionAnswer(StrictModel):
    """A standing warning that goes with the result."""

    caution_id: str
    text: str


class SolveAnswer(StrictModel):
    """How the answer was found."""

    solver: str
    variables: int
    constraints: int
    seconds: dict[str, float] = Field(description="Wall time of each stage.")


class _Answer(StrictModel):
    """What every outcome contains."""

    reference: str | None
    title: str | None
    start_date: IsoDate | None
    assumptions: list[AssumptionAnswer]
    cautions: list[CautionAnswer]


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
    goals: list[GoalAnswer]
    plan: PlanDocument
    requirements: list[ShortFigureAnswer] = Field(
        description="What the expedition needs, by place, cook group and person. `POST "
        "/v1/requirements` with the same body gives the figures of single days and trips too, and "
        "the source and inputs of every figure."
    )
    check: CheckAnswer
    solve: SolveAnswer


class ConflictAnswer(StrictModel):
    """One of the rules that together make the request infeasible."""

    rule_id: str
    message: str
    instead: list[str] = Field(description="Changes that would be allowed, if any are known.")


class InfeasibleAnswer(_Answer):
    """No plan can exist: a broken rule, a proof or a second search shows it."""

    outcome: Literal["infeasible"]
    conflicts: list[ConflictAnswer]
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
