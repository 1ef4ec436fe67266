"""Wind chill and the frostbite bands that go with it.

Wind chill speaks of bare skin and of nothing else: it says nothing of water, fuel or batteries.
Winds are at 10 m above open ground, as forecasts give them, not at the door of the tent.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from solver.calculators._ranges import require_within

_COLD = "The index is defined for cold air, down to the end of the published chart."
_WIND = "The published chart ends at this wind."


def wind_chill_c(*, air_temperature_c: float, wind_km_h: float) -> float:
    """Wind chill [degC] from air temperature and wind at 10 m.

    Range: -50 to 10 degC and 0 to 80 km/h, refused outside. Below 5 km/h the formula for low wind
    is taken: T + (0.1345 T - 1.59) V / 5. The result is never above the air temperature.

    Source: Osczevski and Bluestein, The New Wind Chill Equivalent Temperature Chart, Bull Amer
    Meteor Soc 86:1453-1458, 2005, doi 10.1175/BAMS-86-10-1453: 13.12 + 0.6215 T
    - 11.37 V^0.16 + 0.3965 T V^0.16; status: read. The limit of 10 degC and the low-wind formula of
    the Canadian index: memory-unverified.

    Departs: does not, inside the range. Stronger winds are refused rather than guessed; use
    80 km/h for them and say so: the index falls by less than 0.13 K for each further km/h.

    Independent check: the 192 values of the Environment Canada chart, all within rounding, and the
    thermofeel library 2.3.0. The two formulas meet at 5 km/h within 0.1 K, and in calm air the
    lower one gives the air's own temperature.
    """
    t, v = air_temperature_c, wind_km_h
    require_within("air_temperature_c", t, -50.0, 10.0, "degC", _COLD)
    require_within("wind_km_h", v, 0.0, 80.0, "km/h", _WIND)
    if v < 5.0:
        return min(t, t + (0.1345 * t - 1.59) * v / 5)
    power = math.pow(v, 0.16)
    return min(t, 13.12 + 0.6215 * t - 11.37 * power + 0.3965 * t * power)


def wind_chill_f(*, air_temperature_f: float, wind_mph: float) -> float:
    """Wind chill [degF] from air temperature and wind at 10 m, in US units.

    Range: -45 to 50 degF and 0 to 60 mph, refused outside. At 3 mph or less the air temperature
    itself is returned, and the result is never above the air temperature.

    Source: US National Weather Service chart, 2001: 35.74 + 0.6215 T - 35.75 V^0.16
    + 0.4275 T V^0.16; status: read. The limits of 50 degF and 3 mph: memory-unverified.

    Departs: does not.

    Independent check: 132 values of the printed chart, all within rounding; the rows from -10 to
    -40 degF are left out because the copy that was read labels them wrongly.
    """
    t, v = air_temperature_f, wind_mph
    require_within("air_temperature_f", t, -45.0, 50.0, "degF", _COLD)
    require_within("wind_mph", v, 0.0, 60.0, "mph", _WIND)
    if v <= 3.0:
        return t
    power = math.pow(v, 0.16)
    return min(t, 35.74 + 0.6215 * t - 35.75 * power + 0.4275 * t * power)


@dataclass(frozen=True, slots=True)
class FrostbiteBand:
    """How soon bare skin can freeze, by wind chill rounded to whole degrees."""

    name: str
    at_or_above_c: float
    minutes: str


FROSTBITE_BANDS = (
    FrostbiteBand("low risk", -27.0, "more than 30 min"),
    FrostbiteBand("risk", -39.0, "10 to 30 min"),
    FrostbiteBand("high risk", -47.0, "5 to 10 min"),
    FrostbiteBand("very high risk", -54.0, "2 to 5 min"),
    FrostbiteBand("extreme risk", -math.inf, "less than 2 min"),
)


def frostbite_band(*, wind_chill_c: float) -> FrostbiteBand:
    """Band of frostbite risk of bare skin, with the time it takes [min], by wind chill.

    Range: -100 to 10 degC, refused outside.

    Source: Environment Canada, wind chill hazards and what to do, table; status: quoted. The words
    "more than 30 min" for the first band are ours; the table says only that the risk is low.

    Departs: the index is rounded down to a whole degree before the table is read, so that a value
    between two bands (-27.4) falls into the worse one.

    Independent check: none was found beyond the table; -18 degF (-27.8 degC) "within 30 minutes" on
    the US chart (read) agrees with the second band.
    """
    require_within("wind_chill_c", wind_chill_c, -100.0, 10.0, "degC", "No colder is known.")
    whole = math.floor(wind_chill_c)
    return next(band for band in FROSTBITE_BANDS if whole >= band.at_or_above_c)


def frostbite_minutes(*, air_temperature_c: float, wind_km_h: float) -> float:
    """Time in which bare skin can freeze [min], from memory, unverified.

    Range: -50 to -15 degC and 25 to 80 km/h, and only where the result is 15 min or less; refused
    outside.

    Source: Environment Canada: (-24.5 (0.667 V + 4.8) + 2111) (-4.8 - T)^-1.668; status:
    memory-unverified. Show it as such and prefer ``frostbite_band``.

    Departs: does not.

    Independent check: none was found. Against the band of the same wind chill it is in the band or
    less than 2 minutes from it for the four values that are tested.
    """
    t, v = air_temperature_c, wind_km_h
    require_within("air_temperature_c", t, -50.0, -15.0, "degC", _COLD)
    require_within("wind_km_h", v, 25.0, 80.0, "km/h", _WIND)
    minutes = (-24.5 * (0.667 * v + 4.8) + 2111) * math.pow(-4.8 - t, -1.668)
    require_within(
        "the time",
        minutes,
        0.0,
        15.0,
        "min",
        "The equation is for frostbite within 15 minutes; take the band instead.",
    )
    return minutes
