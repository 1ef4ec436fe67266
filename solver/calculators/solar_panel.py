"""What a small solar panel yields by latitude and time of year."""

from __future__ import annotations

import math

from solver.calculators._ranges import require_within

_SOLAR_CONSTANT_MJ_PER_M2_MIN = 0.0820
CLEARNESS = 0.5
PANEL_SHARE = 0.5


def sun_above_air_mj_per_m2(*, latitude_deg: float, day_of_year: float) -> float:
    """Sunlight of a day on flat ground if there were no air [MJ/m2].

    Range: latitude -90 to 90 degrees, day of the year 1-366. Outside it: ValueError.

    Source: Allen et al. (1998), Crop evapotranspiration, FAO Irrigation and Drainage Paper 56,
    equations 21 to 25; from memory, unverified.

    Departs: where the sun does not rise the result is 0, and where it does not set the day has
    24 h, which the paper's tables leave out.

    Independent check: the paper's worked example 8, 32.2 MJ/m2 at 20 degrees south on 3 September
    (day 246), from memory.
    """
    require_within("latitude_deg", latitude_deg, -90, 90, "degrees")
    require_within("day_of_year", day_of_year, 1, 366, "")
    year = 2 * math.pi * day_of_year / 365
    closer = 1 + 0.033 * math.cos(year)
    declination = 0.409 * math.sin(year - 1.39)
    latitude = math.radians(latitude_deg)
    sunset = math.acos(min(1.0, max(-1.0, -math.tan(latitude) * math.tan(declination))))
    sun = sunset * math.sin(latitude) * math.sin(declination)
    sun += math.cos(latitude) * math.cos(declination) * math.sin(sunset)
    return max(0.0, 24 * 60 / math.pi * _SOLAR_CONSTANT_MJ_PER_M2_MIN * closer * sun)


def panel_wh_per_day(*, rated_w: float, latitude_deg: float, day_of_year: float) -> float:
    """Energy that a panel of a rated power puts into batteries on a usual day [Wh/day].

    Range: rated power 0-500 W; latitude and day as sun_above_air_mj_per_m2. Outside it: ValueError.

    Source: hours of full sun from sun_above_air_mj_per_m2, of which half comes through air and
    clouds, and half of that into the batteries, the panel lying flat, iced or folded part of the
    day: common practice, no source.

    Departs: not a published model. A storm day yields almost nothing; snow around the panel and a
    panel turned to the sun yield more.

    Independent check: No independent check was found.
    """
    require_within("rated_w", rated_w, 0, 500, "W")
    sun = sun_above_air_mj_per_m2(latitude_deg=latitude_deg, day_of_year=day_of_year)
    full_sun_h = sun / 3.6
    return rated_w * full_sun_h * CLEARNESS * PANEL_SHARE
