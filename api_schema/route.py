"""The route on the wire: places, and the legs that join them."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from api_schema.quantities import Angle, Duration, Elevation, Length, Percent, Range, Temperature
from api_schema.strict import WHOLE, Flag, Id, Name, StrictModel

PlaceKindName = Literal["road_head", "airstrip", "camp", "cache_site", "summit"]
LegModeName = Literal["sled", "pack", "fixed_rope", "summit"]
HazardName = Literal["low", "moderate", "high"]
CacheDangerName = Literal[
    "avalanche_path", "seracs_above", "crevasse_bridge", "wind_scoop", "melt_out"
]


class CacheRequest(StrictModel):
    """How a cache at a place is meant to be made; what is left out counts as not said."""

    depth: Annotated[Length, Range("0 m", "20 m")] | None = Field(
        default=None, description="Firm snow over the food.", examples=["1 m"]
    )
    poles: Annotated[int, Field(ge=0, le=20), WHOLE] | None = Field(
        default=None, description="Poles that mark it.", examples=[2]
    )
    pole_above_snow: Annotated[Length, Range("0 m", "20 m")] | None = Field(
        default=None, description="What shows of the poles when placed.", examples=["1.8 m"]
    )
    expected_snow: Annotated[Length, Range("0 m", "20 m")] | None = Field(
        default=None, description="Snow that may fall while it lies there.", examples=["80 cm"]
    )
    position: Flag | None = Field(default=None, description="Whether its position is recorded.")
    label: Flag | None = Field(
        default=None, description="Whether a label says whose it is and when it is fetched."
    )
    dangers: list[CacheDangerName] = Field(
        default=[], max_length=5, description="What makes the place bad for leaving things."
    )


class PlaceRequest(StrictModel):
    """A place of the route."""

    place_id: Id = Field(examples=["camp-1"])
    name: Name | None = Field(default=None, examples=["Lower camp"])
    kind: PlaceKindName | None = Field(
        default=None,
        description="Left out, the first place of day 1 is a road head and all others are camps. "
        "Nobody can sleep at a cache site or on a summit.",
    )
    elevation: Elevation = Field(description="Height above sea level.", examples=["2050 m"])
    night: Temperature | None = Field(
        default=None, description="Air temperature of a typical night there.", examples=["-8 degC"]
    )
    storm_nights: Annotated[int, Field(ge=0, le=30), WHOLE] = Field(
        default=0,
        description="Nights of food and fuel held for a storm, for all who sleep there.",
        examples=[1],
    )
    cache: CacheRequest | None = Field(
        default=None, description="How things left there unattended are buried and marked."
    )


class LegRequest(StrictModel):
    """A leg between two neighbouring places, written outward: `from` is nearer to the start."""

    leg_id: Id | None = Field(default=None, description="Left out, legs are numbered.")
    from_: Id = Field(alias="from", examples=["road"])
    to: Id = Field(examples=["camp-1"])
    mode: LegModeName = Field(description="How people travel; sleds go on sled legs only.")
    distance: Length | None = Field(default=None, examples=["9 km"])
    ascent: Length | None = Field(default=None, description="Metres climbed going out.")
    descent: Length | None = Field(default=None, description="Metres lost going out.")
    steepest_angle: Angle | None = Field(default=None, examples=["16 deg"])
    sled_factor_up: Percent | None = Field(
        default=None,
        description="Share of the sled limits that holds going out. Left out, it follows from "
        "the steepest angle.",
        examples=["85 %"],
    )
    sled_factor_down: Percent | None = Field(
        default=None, description="The same coming back. Left out, as going out."
    )
    crevasse_hazard: HazardName | None = Field(default=None)
    traverse: Flag = Field(default=False, description="Whether the leg crosses a side-slope.")
    hours_up: Annotated[Duration, Range("1 min", "24 h")] | None = Field(
        default=None, examples=["5 h"]
    )
    hours_down: Annotated[Duration, Range("1 min", "24 h")] | None = Field(
        default=None, examples=["90 min"]
    )


class RouteRequest(StrictModel):
    """All places and legs; the legs make a tree that grows from where the trip starts."""

    places: list[PlaceRequest] = Field(min_length=1, max_length=40)
    legs: list[LegRequest] = Field(max_length=40)
