"""The route on the wire: places, and the legs that join them."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from api_schema.quantities import (
    Angle,
    Duration,
    Elevation,
    Length,
    Percent,
    Range,
    Speed,
    Temperature,
)
from api_schema.strict import WHOLE, Flag, Id, Name, StrictModel

PlaceKindName = Literal["road_head", "airstrip", "camp", "cache_site", "summit"]
LegModeName = Literal["sled", "pack", "fixed_rope", "summit"]
HazardName = Literal["low", "moderate", "high"]
SnowName = Literal["firm", "crusted", "soft", "deep"]
TrailName = Literal["broken", "shared", "guides"]
CacheDangerName = Literal[
    "avalanche_path", "seracs_above", "crevasse_bridge", "wind_scoop", "melt_out"
]


class CacheRequest(StrictModel):
    """How a cache at a place will be made. What is not given is not checked."""

    depth: Annotated[Length, Range("0 m", "20 m")] | None = Field(
        default=None, description="The depth of firm snow over the food.", examples=["1 m"]
    )
    poles: Annotated[int, Field(ge=0, le=20), WHOLE] | None = Field(
        default=None, description="The number of poles that mark the cache.", examples=[2]
    )
    pole_above_snow: Annotated[Length, Range("0 m", "20 m")] | None = Field(
        default=None,
        description="How far the poles show above the snow when they are placed.",
        examples=["1.8 m"],
    )
    expected_snow: Annotated[Length, Range("0 m", "20 m")] | None = Field(
        default=None,
        description="The snow that may fall while the cache is there.",
        examples=["80 cm"],
    )
    position: Flag | None = Field(
        default=None, description="Whether the position of the cache is recorded."
    )
    label: Flag | None = Field(
        default=None,
        description="Whether a label says who owns the cache and when it is picked up.",
    )
    dangers: list[CacheDangerName] = Field(
        default=[], max_length=5, description="What makes the place dangerous for a cache."
    )


class PlaceRequest(StrictModel):
    """A place of the route."""

    place_id: Id = Field(examples=["camp-1"])
    name: Name | None = Field(default=None, examples=["Lower camp"])
    kind: PlaceKindName | None = Field(
        default=None,
        description="If not given, the first place of day 1 is a road head and all others are "
        "camps. Nobody can sleep at a cache site or on a summit.",
    )
    elevation: Elevation = Field(description="The elevation above sea level.", examples=["2050 m"])
    night: Temperature | None = Field(
        default=None,
        description="The air temperature on a typical night there.",
        examples=["-8 degC"],
    )
    storm_nights: Annotated[int, Field(ge=0, le=30), WHOLE] = Field(
        default=0,
        description="The nights of food and fuel held in reserve for a storm, for everybody who "
        "sleeps there.",
        examples=[1],
    )
    cache: CacheRequest | None = Field(
        default=None, description="How things that are left there alone are buried and marked."
    )


class LegRequest(StrictModel):
    """A leg between two neighbouring places, written outbound: `from` is nearer to the start."""

    leg_id: Id | None = Field(default=None, description="If not given, legs are numbered.")
    from_: Id = Field(alias="from", examples=["road"])
    to: Id = Field(examples=["camp-1"])
    mode: LegModeName = Field(description="How people travel. Sleds go on sled legs only.")
    distance: Length | None = Field(default=None, examples=["9 km"])
    ascent: Length | None = Field(default=None, description="The ascent of the outbound way.")
    descent: Length | None = Field(default=None, description="The descent of the outbound way.")
    steepest_angle: Angle | None = Field(default=None, examples=["16 deg"])
    sled_factor_outbound: Percent | None = Field(
        default=None,
        description="The share of the sled limits that holds outbound. If not given, it follows "
        "from the steepest angle.",
        examples=["85 %"],
    )
    sled_factor_homeward: Percent | None = Field(
        default=None,
        description="The share of the sled limits that holds homeward. If not "
        "given, the same as outbound.",
    )
    crevasse_hazard: HazardName | None = Field(default=None)
    traverse: Flag = Field(default=False, description="Whether the leg traverses a side slope.")
    hours_outbound: Annotated[Duration, Range("1 min", "24 h")] | None = Field(
        default=None, examples=["5 h"]
    )
    hours_homeward: Annotated[Duration, Range("1 min", "24 h")] | None = Field(
        default=None, examples=["90 min"]
    )
    snow: SnowName | None = Field(
        default=None,
        description="What the snow is like underfoot. If not given, it follows from mode and "
        "season.",
    )
    sinkage: Annotated[Length, Range("0 m", "1 m")] | None = Field(
        default=None,
        description="How deep whoever goes first sinks in, with what they wear on their feet; up "
        "to 1 m. If not given, it follows from the snow.",
        examples=["15 cm"],
    )
    trail: TrailName | None = Field(
        default=None,
        description="Who breaks trail: it is broken, all share it, or the guides do. If not given, "
        "all share it the first time and it is broken from then on.",
    )
    day_temperature: Temperature | None = Field(
        default=None,
        description="Air temperature of the hours on the way. If not given, it follows from the "
        "nights at its two ends.",
        examples=["-10 degC"],
    )
    day_wind: Speed | None = Field(
        default=None, description="Wind of the hours on the way.", examples=["20 km/h"]
    )


class RouteRequest(StrictModel):
    """All places and legs. The legs form a tree with the start place as its root."""

    places: list[PlaceRequest] = Field(min_length=1, max_length=40)
    legs: list[LegRequest] = Field(max_length=40)
