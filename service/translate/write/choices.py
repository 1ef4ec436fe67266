"""The solver's choices under their names on the wire."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal

from api_schema.flights import FlightDirectionName
from api_schema.route import LegModeName
from solver.problem import Direction, FlightDirection, LegMode
from solver.rulebook import RuleKind

MODES: Mapping[LegMode, LegModeName] = MappingProxyType(
    {
        LegMode.SLED: "sled",
        LegMode.PACK: "pack",
        LegMode.FIXED_ROPE: "fixed_rope",
        LegMode.SUMMIT: "summit",
    }
)
DIRECTIONS: Mapping[Direction, Literal["up", "down"]] = MappingProxyType(
    {Direction.UP: "up", Direction.DOWN: "down"}
)
FLIGHT_DIRECTIONS: Mapping[FlightDirection, FlightDirectionName] = MappingProxyType(
    {FlightDirection.IN: "in", FlightDirection.OUT: "out"}
)
REMARK_KINDS: Mapping[RuleKind, Literal["preference", "caution"]] = MappingProxyType(
    {RuleKind.PREFERENCE: "preference", RuleKind.CAUTION: "caution"}
)
