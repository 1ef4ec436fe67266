"""Cold of the hours on the way: temperature, wind and felt temperature of a leg by day."""

from __future__ import annotations

from dataclasses import dataclass, replace

from solver.calculators.clothing_band import felt_temperature_c
from solver.calculators.day_temperature import day_temperature_c
from solver.problem import Leg, Problem, Season
from solver.requirements.figures import Input
from solver.requirements.snow import season
from solver.requirements.surroundings import PRACTICE, as_given, assumed, wind

COLDEST_C, WARMEST_C = -50.0, 40.0
STRONGEST_KMH = 200.0
HIGHEST_M, LOWEST_M = 8849, -430


@dataclass(frozen=True, slots=True)
class Daytime:
    """What a leg is like by day; `held` says what lay beyond the range of the wind chill."""

    temperature: Input
    wind: Input
    felt_c: float
    held: tuple[str, ...]


def daytime(problem: Problem, leg: Leg) -> Daytime:
    """Temperature and wind of a leg by day, and how cold they feel, held within the range."""
    air = _temperature(problem, leg)
    blows = wind(problem.conditions)
    if leg.day_wind_kmh is not None:
        blows = as_given("wind", leg.day_wind_kmh, "km/h")
    held_c = min(WARMEST_C, max(COLDEST_C, float(air.value)))
    held_kmh = min(STRONGEST_KMH, float(blows.value))
    held = []
    if held_c != air.value:
        held.append(f"{air.value:g} degC is taken as {held_c:g} degC")
    if held_kmh != blows.value:
        held.append(f"a wind of {blows.value:g} km/h is taken as {held_kmh:g} km/h")
    felt = felt_temperature_c(air_temperature_c=held_c, wind_km_h=held_kmh)
    return Daytime(air, blows, felt, tuple(held))


def _temperature(problem: Problem, leg: Leg) -> Input:
    """Given with the leg, else by elevation and season, never colder than a given night there."""
    if leg.day_temperature_c is not None:
        return as_given("day_temperature", leg.day_temperature_c, "degC")
    ends = [problem.route.place(place_id) for place_id in (leg.from_place, leg.to_place)]
    higher = max(ends, key=lambda place: place.elevation_m)
    time_of_year = Season(str(season(problem.conditions).value))
    by_rule = day_temperature_c(
        elevation_m=min(HIGHEST_M, max(LOWEST_M, higher.elevation_m)), season=time_of_year.value
    )
    source = (
        f"standard atmosphere and subarctic profiles (AFGL-TR-86-0110, 1986) in {time_of_year} at "
        f"the higher end, {higher.elevation_m} m: {PRACTICE}"
    )
    found = assumed("day_temperature", round(by_rule, 1), "degC", source)
    night_c = higher.night_temperature_c
    if night_c is not None and night_c > by_rule:
        return replace(found, value=night_c, source="the night given at the higher end is warmer")
    return found
