"""The route: places and the legs that join them, a tree rooted where the trip starts."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum


class PlaceKind(StrEnum):
    """What a place is for."""

    ROAD_HEAD = "road_head"
    AIRSTRIP = "airstrip"
    CAMP = "camp"
    CACHE_SITE = "cache_site"
    SUMMIT = "summit"


class LegMode(StrEnum):
    """How people travel a leg; sleds are hauled on `SLED` legs only."""

    SLED = "sled"
    PACK = "pack"
    FIXED_ROPE = "fixed_rope"
    SUMMIT = "summit"


class Direction(StrEnum):
    """`OUTBOUND` leads away from the start, `HOMEWARD` back to it, whatever the slope."""

    OUTBOUND = "outbound"
    HOMEWARD = "homeward"


class Hazard(StrEnum):
    """Crevasse hazard of a leg, as judged by the leader."""

    LOW = "low"
    MODERATE = "moderate"
    HIGH = "high"


class SnowKind(StrEnum):
    """What the snow of a leg is like underfoot."""

    FIRM = "firm"
    CRUSTED = "crusted"
    SOFT = "soft"
    DEEP = "deep"


class TrailBreaking(StrEnum):
    """Who breaks trail on a leg: nobody must, all in turn, or the guides in turn."""

    BROKEN = "broken"
    SHARED = "shared"
    GUIDES = "guides"


class CacheDanger(StrEnum):
    """What makes a place bad for leaving things unattended."""

    AVALANCHE_PATH = "avalanche_path"
    SERACS_ABOVE = "seracs_above"
    CREVASSE_BRIDGE = "crevasse_bridge"
    WIND_SCOOP = "wind_scoop"
    MELT_OUT = "melt_out"


@dataclass(frozen=True, slots=True)
class CacheSite:
    """How a cache at a place is meant to be made; None where nothing is given.

    `depth_m` is firm snow over the food, `pole_above_snow_m` what shows of the poles.
    """

    depth_m: float | None = None
    poles: int | None = None
    pole_above_snow_m: float | None = None
    expected_snow_m: float | None = None
    has_position: bool | None = None
    has_label: bool | None = None
    dangers: tuple[CacheDanger, ...] = ()


@dataclass(frozen=True, slots=True)
class Place:
    """A place of the route; `night_temperature_c` is what a typical night there brings."""

    place_id: str
    elevation_m: int
    kind: PlaceKind = PlaceKind.CAMP
    night_temperature_c: float | None = None
    name: str = ""
    cache: CacheSite | None = None


@dataclass(frozen=True, slots=True)
class Leg:
    """A leg between two neighbouring places, outward from `from_place` to `to_place`.

    The factors are what share of a sled's mass limits holds on this leg, in per cent.
    `sinkage_cm` is how deep the first on the trail sinks; `day_temperature_c` and `day_wind_kmh`
    are those of the hours on the way.
    """

    leg_id: str
    from_place: str
    to_place: str
    mode: LegMode
    sled_factor_outbound_percent: int = 100
    sled_factor_homeward_percent: int = 100
    distance_m: int | None = None
    ascent_m: int | None = None
    descent_m: int | None = None
    steepest_deg: float | None = None
    crevasse_hazard: Hazard | None = None
    traverse: bool = False
    hours_outbound: float | None = None
    hours_homeward: float | None = None
    snow: SnowKind | None = None
    sinkage_cm: float | None = None
    trail: TrailBreaking | None = None
    day_temperature_c: float | None = None
    day_wind_kmh: float | None = None


@dataclass(frozen=True, slots=True)
class Route:
    """All places and legs; a place is *beyond* another when its way home leads through it."""

    places: tuple[Place, ...]
    legs: tuple[Leg, ...]
    _homeward: dict[str, str] = field(init=False, compare=False, repr=False)

    def __post_init__(self) -> None:
        """Read the legs once; they are asked for the way home all the time."""
        object.__setattr__(self, "_homeward", {leg.to_place: leg.from_place for leg in self.legs})

    def place(self, place_id: str) -> Place:
        """The place of that id; KeyError when there is none."""
        for place in self.places:
            if place.place_id == place_id:
                return place
        raise KeyError(place_id)

    def leg_between(self, one: str, other: str) -> Leg:
        """The leg that joins two places, in either direction; KeyError when none does."""
        for leg in self.legs:
            if {leg.from_place, leg.to_place} == {one, other}:
                return leg
        raise KeyError((one, other))

    def homeward(self) -> dict[str, str]:
        """For each place but the root, the neighbour one leg closer to the start."""
        return dict(self._homeward)

    def way_home(self, place_id: str) -> tuple[str, ...]:
        """The places from this one to the root of the route, both included."""
        parent = self._homeward
        way = [place_id]
        while way[-1] in parent:
            way.append(parent[way[-1]])
        return tuple(way)

    def is_at_or_beyond(self, place_id: str, mark: str) -> bool:
        """Whether `place_id` is `mark` itself or reached only through it."""
        return mark in self.way_home(place_id)

    def path(self, start: str, end: str) -> tuple[str, ...]:
        """The places from `start` to `end` along the route, both included."""
        up = self.way_home(start)
        down = self.way_home(end)
        common = next(place for place in up if place in down)
        return up[: up.index(common) + 1] + down[: down.index(common)][::-1]
