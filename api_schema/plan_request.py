"""A request for a plan, as one document."""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import ConfigDict, Field, StringConstraints

from api_schema.calendar import Day
from api_schema.conditions import ConditionsRequest
from api_schema.edited_plan import EditedPlan, EditedTrip
from api_schema.flights import EvacuationRequest, FlightRequest
from api_schema.fuel import FuelRequest
from api_schema.gear import ItemRequest
from api_schema.library_use import LibraryUse
from api_schema.menu import MenuRequest
from api_schema.pins import PinRequest
from api_schema.plan_resource import PlanId
from api_schema.quantities import Duration, Percent
from api_schema.reserves import ReserveRequest, WasteRequest
from api_schema.roster import PersonalItems, PersonRequest, SledRequest
from api_schema.route import RouteRequest
from api_schema.rules import RulesRequest
from api_schema.strict import WHOLE, Flag, Id, IsoDate, StrictModel


class NearPlanRequest(StrictModel):
    """A former plan. The answer stays near to it. Give its id or its trips."""

    plan_id: PlanId | None = Field(
        default=None,
        description="A plan of this service whose outcome is `solved`. Its trips are read when the "
        "request is accepted, and stored with it until the new plan is final.",
    )
    trips: list[EditedTrip] | None = Field(
        default=None,
        max_length=2000,
        description="The trips of a plan, as in an answer. They may come from another request, "
        "such as the one before a change, and may break any rule. Beside an id, they count and "
        "the id does not; only the id stays once the new plan is final.",
    )
    tolerance: Percent | None = Field(
        default=None,
        description="How much the peak load may rise above its least value so that the plan stays "
        "near, as a share of that value. If not given, 0.5 %.",
        examples=["0.5 %"],
    )


class StartPlanRequest(StrictModel):
    """A plan to begin from. Give its id or the plan itself."""

    plan_id: PlanId | None = Field(
        default=None,
        description="A plan of this service whose outcome is `solved`. It is read when the request "
        "is accepted, and stored with it until the new plan is final.",
    )
    plan: EditedPlan | None = Field(
        default=None,
        description="The plan, as in an answer or edited by hand. Beside an id, it counts and the "
        "id does not; only the id stays once the new plan is final.",
    )


class OptionsRequest(StrictModel):
    """What a solve may use."""

    time_limit: Duration | None = Field(
        default=None, description="The most wall time for the search.", examples=["30 s"]
    )
    workers: Annotated[int, Field(ge=1, le=8), WHOLE] | None = Field(
        default=None, description="How many threads race, if `racing` is true."
    )
    racing: Flag = Field(
        default=False,
        description="Let several threads race and the clock decide when each stage ends. Without "
        "it, the search counts its steps, and the same request gives the same plan again unless "
        "the time limit ends the search.",
    )
    light_trips_up_to: Percent | None = Field(
        default=None,
        description="How full a light trip may get, as a share of the caps, so that things stay "
        "with their carriers and preferences are met. It never raises the peak load. If not "
        "given, 90 %.",
        examples=["90 %"],
    )
    near_plan: NearPlanRequest | None = Field(
        default=None,
        description="A former plan. Right after the peak load, the goal `closeness` makes as few "
        "units as possible ride with people who did not have them on that trip of the former plan.",
    )
    start_plan: StartPlanRequest | None = Field(
        default=None,
        description="A plan to begin from. If it keeps every rule of this request, the peak load "
        "of the answer is never higher, however short the time limit is. Otherwise it is not used. "
        "`POST /v1/plan-checks` says what it breaks.",
    )
    seed: Annotated[int, Field(ge=0, le=2**31 - 1), WHOLE] | None = Field(default=None)


def _from_library(schema: dict[str, Any]) -> None:
    """Say that route and roster may come from the library; what is read has them put in."""
    schema["required"] = [name for name in schema["required"] if name not in _FROM_LIBRARY]
    schema["allOf"] = [
        {
            "anyOf": [
                {"required": [name]},
                {
                    "required": ["library"],
                    "properties": {
                        "library": {"required": [name], "properties": {name: {"type": "object"}}}
                    },
                },
            ]
        }
        for name in _FROM_LIBRARY
    ]


_FROM_LIBRARY = ("route", "roster")


class PlanRequest(StrictModel):
    """An expedition to plan. Route, calendar and roster are required. All else has defaults."""

    model_config = ConfigDict(json_schema_extra=_from_library)

    reference: Annotated[str, StringConstraints(min_length=1, max_length=120)] | None = Field(
        default=None,
        description="Your own reference. The answer repeats it.",
        examples=["booking 1001"],
    )
    webhook_url: Annotated[str, StringConstraints(min_length=1, max_length=2000)] | None = Field(
        default=None,
        description="The address, with `https`, to which the service posts a signed note when the "
        "plan is final. Only services that have webhooks switched on accept this.",
        examples=["https://trips.example/hooks/plans"],
    )
    title: Annotated[str, StringConstraints(min_length=1, max_length=200)] | None = Field(
        default=None, examples=["Spring trip, team of three"]
    )
    start_date: IsoDate | None = Field(
        default=None, description="The date of day 1.", examples=["2027-05-20"]
    )
    library: LibraryUse | None = Field(
        default=None,
        description="Parts that were stored in the library, by id and version. The stored request "
        "of the plan contains them in full.",
    )
    route: RouteRequest
    calendar: list[Day] = Field(min_length=1, max_length=60, description="The days in order.")
    roster: list[PersonRequest] = Field(min_length=1, max_length=48)
    without: list[Id] = Field(
        default=[],
        max_length=47,
        description="People of the roster who stay at home. Their sleds, personal kit, seats on "
        "flights and evacuations are left out. If a whole rope team or cook group stays at home, "
        "its things are left out, too. Counts that follow from the number of people get smaller, "
        "and so do bags of night sets. Other counts that the request gives stay. The assumptions "
        "list what was done and what to look at again.",
        examples=[["third"]],
    )
    sleds: list[SledRequest] | None = Field(
        default=None,
        max_length=48,
        description="If not given, everybody with a sled cap hauls a generic sled.",
    )
    personal_kits: dict[Id, PersonalItems] = Field(
        default={}, max_length=48, description="Kits of personal items, by id."
    )
    gear: list[ItemRequest] = Field(default=[], max_length=800, description="Shared items.")
    menu: MenuRequest | None = Field(
        default=None, description="If not given, generic night sets are used."
    )
    fuel: FuelRequest = Field(default=FuelRequest())
    reserves: list[ReserveRequest] = Field(
        default=[],
        max_length=400,
        description="Reserves in addition to the places' `storm_nights`.",
    )
    flights: list[FlightRequest] = Field(
        default=[], max_length=40, description="Fly-ins to the start place and fly-outs from it."
    )
    evacuations: list[EvacuationRequest] = Field(
        default=[],
        max_length=100,
        description="People for whom to check whether they could leave early.",
    )
    pins: list[PinRequest] = Field(
        default=[],
        max_length=2000,
        description="Loads that you decide yourself, for example from an edited plan. The plan "
        "keeps them, and the service solves the rest. If a pin breaks a rule, the refusal names "
        "the rule and the amount.",
    )
    waste: WasteRequest = Field(default=WasteRequest())
    conditions: ConditionsRequest = Field(default=ConditionsRequest())
    rules: RulesRequest = Field(default=RulesRequest())
    options: OptionsRequest = Field(default=OptionsRequest())
