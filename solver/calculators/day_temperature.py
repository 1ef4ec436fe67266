"""Air temperature of the hours on the way, by elevation and season."""

from __future__ import annotations

from typing import Literal

from solver.calculators._ranges import require_choice, require_within
from solver.calculators.atmosphere import standard_temperature_c

SeasonName = Literal["spring", "summer", "winter"]

_OFF_STANDARD_K = {"winter": -15.0, "spring": -5.5, "summer": 4.0}


def day_temperature_c(*, elevation_m: float, season: SeasonName) -> float:
    """Air temperature by day on a high-latitude mountain [degC].

    Range: elevation -430 to 8849 m. Outside it: ValueError.

    Source: the standard atmosphere (ICAO Doc 7488, 1993) less 15 K in winter and 4 K more in
    summer, as the subarctic profiles of Anderson et al., AFGL-TR-86-0110 (1986) lie beside it at
    4.3 km (-28 and -9 against -13 degC, computed with a library); spring is midway between.

    Departs: a mean of day and night, so days with sun are warmer and days with wind or a cold spell
    colder by 10 K and more. Low latitudes are warmer.

    Independent check: the same profiles at 6 km, -39 degC in winter and -20 in summer.
    """
    require_within("elevation_m", elevation_m, -430, 8849, "m")
    off = require_choice("season", season, _OFF_STANDARD_K)
    return standard_temperature_c(geometric_height_m=elevation_m) + off
