"""Conditions on the wire: what is known of snow, weather, stoves and habits; all may be left out.

The requirements use them. What is not given has a named default, shown with each figure.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from api_schema.quantities import (
    Duration,
    Latitude,
    Mass,
    Percent,
    Power,
    Range,
    Speed,
    Temperature,
    Volume,
)
from api_schema.strict import NUMBER, Flag, StrictModel

SexName = Literal["male", "female"]
SeasonName = Literal["winter", "spring", "summer"]
FuelKindName = Literal["white_gas", "kerosene", "canister_gas"]
SleepingRuleName = Literal["wms", "cdc", "uiaa", "cautious"]
TravelMethodName = Literal["naismith", "langmuir", "tobler", "din_33466", "munter"]


class GasBlendRequest(StrictModel):
    """What is in a canister, as shares of the mass of the gas. Together they are 100 %."""

    propane: Percent = Field(default="0 %", examples=["20 %"])
    isobutane: Percent = Field(default="0 %", examples=["80 %"])
    n_butane: Percent = Field(default="0 %", examples=["0 %"])


class ConditionsRequest(StrictModel):
    """Facts about the expedition beyond route and roster."""

    fuel_kind: FuelKindName | None = Field(
        default=None, description="What the stoves burn.", examples=["white_gas"]
    )
    stove_efficiency: Annotated[Percent, Range("10 %", "75 %")] | None = Field(
        default=None,
        description="The share of the fuel's heat that reaches the water, from 10 to 75 %.",
        examples=["40 %"],
    )
    snow_temperature: Annotated[Temperature, Range("-40 degC", "0 degC")] | None = Field(
        default=None,
        description="The temperature of the snow that is melted, from -40 to 0 degC.",
        examples=["-12 degC"],
    )
    melted_water: Annotated[Volume, Range("0 L", "20 L")] | None = Field(
        default=None,
        description="Water melted from snow for one person and day, not counting `boiled_water`.",
        examples=["2.5 L"],
    )
    boiled_water: Annotated[Volume, Range("0 L", "20 L")] | None = Field(
        default=None,
        description="Water melted and boiled for one person and day.",
        examples=["2 L"],
    )
    simmering: Annotated[Duration, Range("0 min", "60 min")] | None = Field(
        default=None,
        description="One person's share of a night's simmering time, as it would be at sea level, "
        "from 0 to 60 min.",
        examples=["2 min"],
    )
    priming: Annotated[Mass, Range("0 g", "50 g")] | None = Field(
        default=None,
        description="One person's share of the fuel that primes the stove each night, from 0 to "
        "50 g.",
        examples=["2 g"],
    )
    gas_blend: GasBlendRequest | None = Field(default=None)
    canister_temperature: Annotated[Temperature, Range("-60 degC", "60 degC")] | None = Field(
        default=None,
        description="The temperature of the gas canister in use.",
        examples=["-5 degC"],
    )
    wind: Speed | None = Field(
        default=None, description="The wind speed for the wind chill.", examples=["30 km/h"]
    )
    high_latitude: Flag | None = Field(
        default=None,
        description="Whether the mountain is so far from the equator that the air is thinner.",
    )
    sleeping_rule: SleepingRuleName | None = Field(
        default=None, description="Which rule on the gain in sleeping elevation is used."
    )
    travel_method: TravelMethodName | None = Field(
        default=None, description="The method for travel times."
    )
    travel_factor: Annotated[float, Field(ge=1, le=5), NUMBER] | None = Field(
        default=None,
        description="The factor by which travel takes longer with loads, sleds and ropes.",
        examples=[1.5],
    )
    sled_friction: Annotated[float, Field(ge=0, le=0.6), NUMBER] | None = Field(
        default=None, description="The friction coefficient of sleds on snow.", examples=[0.1]
    )
    season: SeasonName | None = Field(
        default=None,
        description="Season, for snow and cold by day. If not given, it follows from start date "
        "and latitude, else it is spring.",
    )
    latitude: Latitude | None = Field(
        default=None,
        description="Latitude of the mountain, below 0 in the south; for the season and for what "
        "a solar panel yields.",
        examples=["63 deg"],
    )
    stove_power: Annotated[Power, Range("0.1 kW", "5 kW")] | None = Field(
        default=None,
        description="What one stove puts into the pot, in the wind and cold of the trip; 0.1 to "
        "5 kW. Measure your own.",
        examples=["1.1 kW"],
    )
    melting_time: Annotated[Duration, Range("0.5 h", "16 h")] | None = Field(
        default=None,
        description="Time for melting and boiling, evening and morning together; 0.5 to 16 h.",
        examples=["4 h"],
    )
    solar_panel: Annotated[Power, Range("0 W", "500 W")] | None = Field(
        default=None,
        description="Rated power of the group's solar panels; 0 to 500 W.",
        examples=["20 W"],
    )
    appetite_loss: Annotated[Percent, Range("0 %", "90 %")] | None = Field(
        default=None,
        description="The share of the food that people do not eat at high elevation, from 0 to 90 "
        "%.",
        examples=["20 %"],
    )
