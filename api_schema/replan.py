"""A state that was counted on the way, and a request for the rest of the expedition."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, StringConstraints

from api_schema.calendar import Day, Places
from api_schema.quantities import Mass, Volume
from api_schema.roster import PersonRequest
from api_schema.strict import WHOLE, Flag, Id, StrictModel, UnitId

Reason = Annotated[str, StringConstraints(min_length=1, max_length=200)]
Count = Annotated[int, Field(ge=0, le=10_000), WHOLE]


class MomentRequest(StrictModel):
    """When it was counted: in the evening before dinner, or in the morning after."""

    day: Annotated[int, Field(ge=1, le=60), WHOLE] = Field(description="The day of the plan.")
    moment: Literal["morning", "evening"]


class CountedUnitsRequest(StrictModel):
    """How many units of one id stand at a place. What is not listed is as planned.

    If you are not sure, give `low` and `high` instead of `count`: `low` counts for what
    is eaten, burnt or needed, and `high` for what must be carried down.
    """

    place: Id
    unit_id: UnitId = Field(examples=["all/high"])
    count: Count | None = Field(default=None)
    low: Count | None = Field(default=None)
    high: Count | None = Field(default=None)


class FuelLeftRequest(StrictModel):
    """The fuel of a cook group in open and full containers, at one place or all places together."""

    cook_group: Id
    place: Id | None = Field(default=None, description="If not given, all places together.")
    amount: Volume = Field(description="The least that it may be.", examples=["4.5 L"])


class LostRequest(StrictModel):
    """Units that are gone from a place: lost, broken, spoilt, or left for good."""

    place: Id
    unit_id: UnitId
    count: Annotated[int, Field(ge=1, le=10_000), WHOLE] = Field(default=1)


class PersonStateRequest(StrictModel):
    """What one person may carry from now on."""

    person_id: Id
    load_limit: Mass = Field(examples=["8 kg"])
    reason: Reason = Field(examples=["ankle"])


class LettingGoRequest(StrictModel):
    """One thing that the leader lets go if no plan keeps every rule.

    Give a hard rule, which is then waived, or a kind of reserve.
    """

    rule_id: Id | None = Field(default=None, examples=["turn_round_stock_held"])
    reserve: Literal["storm", "descent", "base_wait", "evacuation"] | None = Field(default=None)
    place: Id | None = Field(
        default=None, description="Where the reserve is. If not given, all places."
    )
    reason: Reason


class UnitsRequest(StrictModel):
    """So many units of one id."""

    unit_id: UnitId
    count: Annotated[int, Field(ge=1, le=10_000), WHOLE] = Field(default=1)


class LeftRequest(StrictModel):
    """A person who has left the expedition with all that they own."""

    person_id: Id
    takes: list[UnitsRequest] = Field(
        default=[],
        max_length=100,
        description="What else they took from the place where they were.",
    )


class JoinRequest(StrictModel):
    """A person who joins, with the personal kit that the request has for them."""

    person: PersonRequest
    place: Id = Field(description="Where they join.")
    brings: list[UnitsRequest] = Field(
        default=[],
        max_length=100,
        description="Units that they bring, of kinds that the plan already has.",
    )


class EvacuationStateRequest(StrictModel):
    """A person who has to go down. The others may stay.

    The service looks for companions, kit, food and fuel, and plans both parties. It gives no
    medical advice. Call the rescue services, and ask a physician.
    """

    person_id: Id
    how: Literal["walks", "hauled", "flies", "not_hurt"] = Field(
        description="`hauled`: on a litter on a sled, by those who go along. `flies`: an aircraft "
        "or a rescue team comes to where the person is, and somebody waits with them. `not_hurt`: "
        "the party divides, and this person carries like the others."
    )
    companions: list[Id] | None = Field(
        default=None,
        max_length=24,
        description="Who goes along. If not given, the fewest people with whom both parties keep "
        "the rules on people. If that cannot be done, everybody there goes along. With `flies`: "
        "who waits with the person and leaves with them, while the others go on at once. If not "
        "given, everybody there waits, and the others go on once the person has been fetched.",
    )
    days: list[Places] | None = Field(
        default=None,
        min_length=1,
        max_length=20,
        description="The days of those who go down. If not given, they follow the last way home in "
        "the plan.",
    )
    litter: Mass | None = Field(
        default=None, description="Litter, straps and wraps. If not given, 6 kg.", examples=["6 kg"]
    )


class ReplanRequest(StrictModel):
    """What was counted, and what to plan. Everything else is as in the plan."""

    at: MomentRequest
    what_if: Flag = Field(
        default=False,
        description="Whether you only want to look at the new plan. It then supersedes nothing, "
        "until you release it or plan again from it.",
    )
    counts: list[CountedUnitsRequest] = Field(default=[], max_length=500)
    fuel_left: list[FuelLeftRequest] = Field(default=[], max_length=12)
    lost: list[LostRequest] = Field(default=[], max_length=200)
    sleds_lost: list[Id] = Field(default=[], max_length=24)
    people: list[PersonStateRequest] = Field(default=[], max_length=48)
    left: list[LeftRequest] = Field(default=[], max_length=48)
    joins: list[JoinRequest] = Field(default=[], max_length=12)
    evacuation: EvacuationStateRequest | None = Field(
        default=None, description="You cannot give it together with `wait_nights`."
    )
    wait_nights: Annotated[int, Field(ge=0, le=20), WHOLE] = Field(
        default=0, description="How many nights everybody first stays where they are."
    )
    calendar: list[Day] | None = Field(
        default=None,
        min_length=1,
        max_length=60,
        description="The whole calendar. Give the days that are over as they were travelled. If "
        "not given, the calendar of the plan.",
    )
    letting_go: list[LettingGoRequest] = Field(
        default=[],
        max_length=20,
        description="What may be let go, in this order, if no plan keeps every rule. The service "
        "lets nothing else go.",
    )
