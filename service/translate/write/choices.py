"""The solver's choices under their names on the wire."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Literal, get_args

from api_schema.flights import FlightDirectionName
from api_schema.gear import PurposeName
from api_schema.route import LegModeName
from solver.plan import ElsewhereReason
from solver.problem import Direction, FlightDirection, LegMode, Purpose
from solver.rulebook import RuleKind

MODES: Mapping[LegMode, LegModeName] = MappingProxyType(
    {
        LegMode.SLED: "sled",
        LegMode.PACK: "pack",
        LegMode.FIXED_ROPE: "fixed_rope",
        LegMode.SUMMIT: "summit",
    }
)
DIRECTIONS: Mapping[Direction, Literal["outbound", "homeward"]] = MappingProxyType(
    {Direction.OUTBOUND: "outbound", Direction.HOMEWARD: "homeward"}
)
FLIGHT_DIRECTIONS: Mapping[FlightDirection, FlightDirectionName] = MappingProxyType(
    {FlightDirection.FLY_IN: "fly_in", FlightDirection.FLY_OUT: "fly_out"}
)
REMARK_KINDS: Mapping[RuleKind, Literal["preference", "advisory"]] = MappingProxyType(
    {RuleKind.PREFERENCE: "preference", RuleKind.ADVISORY: "advisory"}
)
PURPOSES: Mapping[Purpose, PurposeName] = MappingProxyType(
    {Purpose(name): name for name in get_args(PurposeName)}
)
ELSEWHERE_REASONS: Mapping[ElsewhereReason, Literal["not_on_trip", "load", "volume", "other"]] = (
    MappingProxyType(
        {
            ElsewhereReason.NOT_ON_TRIP: "not_on_trip",
            ElsewhereReason.LOAD: "load",
            ElsewhereReason.VOLUME: "volume",
            ElsewhereReason.OTHER: "other",
        }
    )
)
