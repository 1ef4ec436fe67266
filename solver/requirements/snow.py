"""The snow of a trip: how deep people sink, who breaks trail, how hard sleds pull."""

from __future__ import annotations

from dataclasses import dataclass

from solver.problem import Conditions, LegMode, Problem, Season, SnowKind, TrailBreaking, Trip
from solver.requirements.figures import Input
from solver.requirements.surroundings import PRACTICE, as_given, assumed

SINKAGE_CM = {
    SnowKind.FIRM: 0.0,
    SnowKind.CRUSTED: 5.0,
    SnowKind.SOFT: 12.0,
    SnowKind.DEEP: 25.0,
}
"""How deep whoever goes first sinks in, with snowshoes, skis or crampons on [cm]."""

FRICTION = {
    SnowKind.FIRM: 0.06,
    SnowKind.CRUSTED: 0.10,
    SnowKind.SOFT: 0.15,
    SnowKind.DEEP: 0.25,
}
"""Friction of a plastic sled, at the upper ends of planning_friction_coefficient's states."""

FOLLOWER_SHARE = 0.4
"""How deep those who follow sink in, as a share of the first one's depth."""

_BY_SEASON = {
    Season.WINTER: {LegMode.SLED: SnowKind.SOFT, LegMode.PACK: SnowKind.SOFT},
    Season.SPRING: {LegMode.SLED: SnowKind.CRUSTED, LegMode.PACK: SnowKind.CRUSTED},
    Season.SUMMER: {LegMode.SLED: SnowKind.CRUSTED, LegMode.PACK: SnowKind.CRUSTED},
}
_ANY_SEASON = {LegMode.FIXED_ROPE: SnowKind.FIRM, LegMode.SUMMIT: SnowKind.CRUSTED}


@dataclass(frozen=True, slots=True)
class Snow:
    """The snow of a trip for one person: depth sunk [cm] and friction of the sled [1]."""

    sinkage: Input
    friction: Input


def season(conditions: Conditions) -> Input:
    """Season of the trip: given, else by month and latitude, else spring."""
    if conditions.season is not None:
        return as_given("season", conditions.season.value, "")
    if conditions.month is None or conditions.latitude_deg is None:
        return assumed("season", Season.SPRING.value, "", f"the usual season: {PRACTICE}")
    month = conditions.month if conditions.latitude_deg >= 0 else (conditions.month + 5) % 12 + 1
    found = Season.SPRING
    if month in {11, 12, 1, 2, 3}:
        found = Season.WINTER
    elif month in {7, 8, 9}:
        found = Season.SUMMER
    return assumed("season", found.value, "", "month of the first day and latitude")


def read_snow(problem: Problem, trip: Trip, person_id: str, *, first_time: bool) -> Snow:
    """The snow of a trip for a person; what the leg leaves open follows from mode and season."""
    leg = trip.leg
    if leg.snow is None:
        time_of_year = str(season(problem.conditions).value)
        by_mode = _ANY_SEASON | _BY_SEASON[Season(time_of_year)]
        kind = by_mode[leg.mode]
        what = f"{kind.value} snow, as such legs have in {time_of_year}"
    else:
        kind = leg.snow
        what = f"{kind.value} snow"
    depth_cm = SINKAGE_CM[kind] if leg.sinkage_cm is None else leg.sinkage_cm
    trail = leg.trail or (TrailBreaking.SHARED if first_time else TrailBreaking.BROKEN)
    share, who = _share(problem, trip, person_id, trail)
    return Snow(
        assumed("sinkage", round(share * depth_cm, 2), "cm", f"{what}; {who}: {PRACTICE}"),
        _friction(problem.conditions, kind, what),
    )


def _friction(conditions: Conditions, kind: SnowKind, what: str) -> Input:
    if conditions.sled_friction is not None:
        return as_given("sled_friction", conditions.sled_friction, "")
    return assumed("sled_friction", FRICTION[kind], "", f"{what}; from memory, unverified")


def _share(problem: Problem, trip: Trip, person_id: str, trail: TrailBreaking) -> tuple[float, str]:
    """Share of the first one's depth that a person sinks in over the whole way, and why [1]."""
    guides = {person.person_id for person in problem.roster if person.is_guide}
    breakers = list(trip.person_ids)
    if trail is TrailBreaking.GUIDES and guides & set(breakers):
        breakers = [one for one in breakers if one in guides]
    if trail is TrailBreaking.BROKEN or person_id not in breakers:
        return FOLLOWER_SHARE, "behind others or in an old trail, 40 % as deep"
    turns = len(breakers)
    share = (1 + (turns - 1) * FOLLOWER_SHARE) / turns
    return share, f"first for one {turns}th of the way" if turns > 1 else "breaking trail alone"
