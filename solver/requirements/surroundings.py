"""What the places of a route are taken to be like, each fact given or a default that is shown."""

from __future__ import annotations

from solver.calculators.atmosphere import standard_pressure_hpa, standard_temperature_c
from solver.problem import Conditions, Place, Timeline
from solver.requirements.figures import About, Input, Notice

PRACTICE = "common practice, no source"
NIGHT_BELOW_STANDARD_K = 8.0
WIND_KMH = 30.0
COLDEST_SNOW_C = -40.0


def as_given(name: str, value: float | str, unit: str) -> Input:
    """An input that the request gave."""
    return Input(name, value, unit, is_default=False)


def assumed(name: str, value: float | str, unit: str, source: str = PRACTICE) -> Input:
    """An input that stands in for what the request left open."""
    return Input(name, value, unit, is_default=True, source=source)


def as_given_or(name: str, given: float | None, default: float, unit: str) -> Input:
    """An input that the request gave or else its default, common practice, no source."""
    return assumed(name, default, unit) if given is None else as_given(name, given, unit)


def night_temperature(*, elevation_m: int, night_temperature_c: float | None) -> Input:
    """Air temperature of a night [degC]; by default that of the standard atmosphere less 8 K.

    Raises ValueError where none is given and the elevation is out of the standard atmosphere's
    range.
    """
    if night_temperature_c is not None:
        return as_given("night_temperature", night_temperature_c, "degC")
    standard_c = standard_temperature_c(geometric_height_m=elevation_m)
    return assumed(
        "night_temperature",
        round(standard_c - NIGHT_BELOW_STANDARD_K, 1),
        "degC",
        f"ICAO standard atmosphere, 6.5 K colder each km, less 8 K for a glacier: {PRACTICE}",
    )


def snow_temperature(night: Input, conditions: Conditions) -> Input:
    """Temperature of the snow that goes into the pot [degC]; by default that of the night.

    Snow is never above 0 degC; a default below -40 degC, where the melting model ends, is taken
    as -40 degC, which takes 1 % less heat for each 2 K.
    """
    if conditions.snow_temperature_c is not None:
        return as_given("snow_temperature", conditions.snow_temperature_c, "degC")
    snow_c = max(COLDEST_SNOW_C, min(0.0, float(night.value)))
    held = "" if snow_c == night.value else ", held within -40 and 0 degC"
    return assumed("snow_temperature", snow_c, "degC", f"the night's air{held}: {PRACTICE}")


def pressure(*, elevation_m: int) -> Input:
    """Air pressure of the standard atmosphere [hPa]; never given, so always a default.

    Raises ValueError for an elevation out of the standard atmosphere's range.
    """
    pressure_hpa = standard_pressure_hpa(geometric_height_m=elevation_m)
    return assumed("pressure", pressure_hpa, "hPa", "ICAO standard atmosphere, Doc 7488, 1993")


def wind(conditions: Conditions) -> Input:
    """Wind at 10 m over open ground [km/h]; 30 km/h by default."""
    return as_given_or("wind", conditions.wind_kmh, WIND_KMH, "km/h")


def elevation(place: Place) -> Input:
    """Elevation of a place on the map [m]."""
    return as_given("elevation", place.elevation_m, "m")


def sleepers(timeline: Timeline) -> dict[str, int]:
    """Person-nights by place, in the order in which places are first slept at."""
    found: dict[str, int] = {}
    for night in timeline.nights:
        for _, place_id in night.sleeps_at:
            found[place_id] = found.get(place_id, 0) + 1
    return found


def places_visited(timeline: Timeline) -> tuple[str, ...]:
    """Every place where somebody is on the trip, in the order of the first visit."""
    found: dict[str, None] = {}
    for trip in timeline.trips:
        found[trip.from_place] = None
        found[trip.to_place] = None
    for place_id in sleepers(timeline):
        found[place_id] = None
    return tuple(found)


def out_of_range(figure_id: str, about: About, error: ValueError) -> Notice:
    """That a figure is not given, since an input lies outside the range of its formula."""
    return Notice(f"{figure_id}_not_given", about, f"No {figure_id.replace('_', ' ')}: {error}")
