"""Conditions on the wire: what is known of snow, weather, stoves and habits; all may be left out.

The requirements reckon with them. What is left out is a named default, shown with each figure.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from api_schema.quantities import Duration, Mass, Percent, Range, Speed, Temperature, Volume
from api_schema.strict import NUMBER, Flag, StrictModel

SexName = Literal["male", "female"]
FuelKindName = Literal["white_gas", "kerosene", "canister_gas"]
SleepingRuleName = Literal["wms", "cdc", "uiaa", "cautious"]
TravelMethodName = Literal["naismith", "langmuir", "tobler", "din_33466", "munter"]


class GasBlendRequest(StrictModel):
    """What is in a canister, as shares of the gas's mass; together they are 100 %."""

    propane: Percent = Field(default="0 %", examples=["20 %"])
    isobutane: Percent = Field(default="0 %", examples=["80 %"])
    n_butane: Percent = Field(default="0 %", examples=["0 %"])


class ConditionsRequest(StrictModel):
    """Facts of the trip beyond route and roster."""

    fuel_kind: FuelKindName | None = Field(
        default=None, description="What the stoves burn.", examples=["white_gas"]
    )
    stove_efficiency: Annotated[Percent, Range("10 %", "75 %")] | None = Field(
        default=None,
        description="Share of the fuel's heat that reaches the water; 10 to 75 %.",
        examples=["40 %"],
    )
    snow_temperature: Annotated[Temperature, Range("-40 degC", "0 degC")] | None = Field(
        default=None,
        description="Of the snow that is melted; -40 to 0 degC.",
        examples=["-12 degC"],
    )
    melted_water: Annotated[Volume, Range("0 L", "20 L")] | None = Field(
        default=None,
        description="Water melted from snow for one person and day, without `boiled_water`.",
        examples=["2.5 L"],
    )
    boiled_water: Annotated[Volume, Range("0 L", "20 L")] | None = Field(
        default=None,
        description="Water melted and boiled for one person and day.",
        examples=["2 L"],
    )
    simmering: Annotated[Duration, Range("0 min", "60 min")] | None = Field(
        default=None,
        description="One person's share of a night's simmering, as if at sea level; 0 to 60 min.",
        examples=["2 min"],
    )
    priming: Annotated[Mass, Range("0 g", "50 g")] | None = Field(
        default=None,
        description="One person's share of a night's priming of the stove; 0 to 50 g.",
        examples=["2 g"],
    )
    gas_blend: GasBlendRequest | None = Field(default=None)
    canister_temperature: Annotated[Temperature, Range("-60 degC", "60 degC")] | None = Field(
        default=None, description="Of the gas canister in use.", examples=["-5 degC"]
    )
    wind: Speed | None = Field(
        default=None, description="Wind to reckon wind chill with.", examples=["30 km/h"]
    )
    high_latitude: Flag | None = Field(
        default=None,
        description="Whether the mountain is so far from the equator that its air is thinner.",
    )
    sleeping_rule: SleepingRuleName | None = Field(
        default=None, description="Whose rule on gaining sleeping height is applied."
    )
    travel_method: TravelMethodName | None = Field(
        default=None, description="How travel times are reckoned."
    )
    travel_factor: Annotated[float, Field(ge=1, le=5), NUMBER] | None = Field(
        default=None,
        description="How many times longer travel takes with loads, sleds and ropes.",
        examples=[1.5],
    )
    sled_friction: Annotated[float, Field(ge=0, le=0.6), NUMBER] | None = Field(
        default=None, description="Friction coefficient of sleds on snow.", examples=[0.1]
    )
    appetite_loss: Annotated[Percent, Range("0 %", "90 %")] | None = Field(
        default=None,
        description="Share of the food that is not eaten high up; 0 to 90 %.",
        examples=["20 %"],
    )
