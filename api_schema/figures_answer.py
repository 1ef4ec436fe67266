"""The figures of a plan on the wire, for comparing plans."""

from __future__ import annotations

from pydantic import Field

from api_schema.plan_resource import OutcomeKindName
from api_schema.strict import StrictModel


class PlanFiguresAnswer(StrictModel):
    """The figures of one plan, or why there is none. Without a plan the figures are null."""

    outcome: OutcomeKindName
    reason: str | None = Field(
        description="Why there is no plan: the first conflict, or what failed. Null if solved."
    )
    people: int | None
    days: int | None
    client_days: int | None = Field(
        description="The number of days times the number of people who are not guides."
    )
    trips: int | None
    peak: float | None = Field(description="The peak load, as a share of its cap.")
    peak_person: str | None
    peak_day: int | None
    peak_cap: str | None = Field(
        description="Which cap the peak is a share of: `pack`, `sled`, `total` or `limit`."
    )
    gap: float | None = Field(description="The peak minus its lower bound, divided by the peak.")
    heavy_person_trips: int | None = Field(
        description="The number of loads over 90 % of their cap: a person on a trip counts once."
    )
    mean_share: float | None = Field(description="The mean load fraction of all loads.")
    weakest_person: str | None = Field(
        description="Who has the least pack cap, or load limit if that is less. It is null if all "
        "have the same."
    )
    weakest_mean_share: float | None = Field(description="The mean load fraction of those people.")
    taken_kg: float | None = Field(description="The mass at the start place before the first trip.")
    food_kg: float | None
    night_sets: int | None
    food_bags: int | None
    fuel_l: float | None = Field(description="The fuel in the containers that are taken.")
    fuel_containers: int | None
    sleds: int | None = Field(description="The sleds that ride on any trip.")
    shelters: int | None
    flights: int | None
    flown_kg: float | None = Field(description="The cargo of the fly-ins.")
    cost_food: str | None = Field(
        description="What the things of this kind cost that have a price. Null if none has one.",
        examples=["612.00 EUR"],
    )
    cost_fuel: str | None
    cost_gear: str | None
    cost_sleds: str | None
    cost_flights: str | None
    cost_total: str | None = Field(description="The sum for all things with a price.")
    without_price: str | None = Field(
        description="How many different things have no price, by kind. They are in no sum.",
        examples=["food 1, gear 24"],
    )
    preferences_broken: int | None = Field(description="Among the first thousand remarks.")
    advisories: int | None = Field(description="Among the first thousand remarks.")
