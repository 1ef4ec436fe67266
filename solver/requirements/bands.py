"""Elevation bands of the rulebook: one set for food, water, fuel and rules."""

from __future__ import annotations

from typing import Literal

from solver.problem import RuleSettings

ElevationBand = Literal["low", "mid", "high"]


def elevation_band(rules: RuleSettings, elevation_m: int) -> ElevationBand:
    """Band of a place; a band begins at its limit, `middle_from_m` or `high_from_m` [name]."""
    if elevation_m >= rules.whole("high_from_m"):
        return "high"
    if elevation_m >= rules.whole("middle_from_m"):
        return "mid"
    return "low"
