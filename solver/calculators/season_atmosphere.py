"""Air pressure at high latitude and by season, where the standard atmosphere is too kind.

In the winter of high latitudes the air is cold and dense, its pressure falls faster with height,
and a camp is "higher" for the body than the map says. The standard figure is the default of every
chain; this module says by how much it may be wrong.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from solver.calculators._ranges import require_choice, require_within
from solver.calculators.atmosphere import (
    geopotential_height_of_pressure_m,
    standard_pressure_hpa,
)

Profile = Literal["us_standard", "subarctic_summer", "subarctic_winter", "midlatitude_summer",
                  "midlatitude_winter", "tropical"]  # fmt: skip

# Pressure at 0, 1, 2 ... 9 km.
_PRESSURES_HPA: dict[str, tuple[float, ...]] = {
    "us_standard": (1013.0, 898.8, 795.0, 701.2, 616.6, 540.5, 472.2, 411.1, 356.5, 308.0),
    "subarctic_summer": (1010.0, 896.0, 792.9, 700.0, 616.0, 541.0, 474.0, 413.0, 359.0, 310.8),
    "subarctic_winter": (1013.0, 887.8, 777.5, 679.8, 593.2, 515.8, 446.7, 385.3, 330.8, 282.9),
    "midlatitude_summer": (1013.0, 902.0, 802.0, 710.0, 628.0, 554.0, 487.0, 426.0, 372.0, 324.0),
    "midlatitude_winter": (1018.0, 897.3, 789.7, 693.8, 608.1, 531.3, 462.7, 401.6, 347.3, 299.3),
    "tropical": (1013.0, 904.0, 805.0, 715.0, 633.0, 559.0, 492.0, 432.0, 378.0, 329.0),
}


def profile_pressure_hpa(*, profile: Profile, geometric_height_m: float) -> float:
    """Pressure at a height in one of the reference atmospheres by latitude and season [hPa].

    Range: 0 to 9000 m, refused outside; the six profiles of the source.

    Source: Anderson, Clough, Kneizys, Chetwynd and Shettle, AFGL Atmospheric Constituent Profiles
    (0-120 km), AFGL-TR-86-0110, 1986; status: computed with the joseki library 2.7.0.

    Departs: between whole kilometres the logarithm of the pressure is interpolated in a straight
    line, as the library does.

    Independent check: the profile "us_standard" lies within 0.5 hPa of the closed formula of the
    standard atmosphere from 0 to 8000 m; for the others none beyond the library.
    """
    levels = require_choice("profile", profile, _PRESSURES_HPA)
    require_within(
        "geometric_height_m",
        geometric_height_m,
        0.0,
        9000.0,
        "m",
        "The table is used from sea level to 9 km.",
    )
    below = min(int(geometric_height_m // 1000), 8)
    share = geometric_height_m / 1000 - below
    low, high = math.log(levels[below]), math.log(levels[below + 1])
    return math.exp(low + share * (high - low))


def low_latitude_pressure_hpa(*, geometric_height_m: float) -> float:
    """Pressure on mountains of low latitude, or of summer further north [hPa].

    Range: 0 to 9000 m, refused outside.

    Source: West, Prediction of barometric pressures at high altitudes with the use of model
    atmospheres, J Appl Physiol 81:1850-1854, 1996: exp(6.63268 - 0.1112 h - 0.00149 h²) in
    Torr with h in km; status: memory-unverified.

    Departs: does not, once Torr are turned into hPa with 1.333224.

    Independent check: the tropical AFGL profile, within 0.5 % from 3 to 6 km.
    """
    require_within(
        "geometric_height_m",
        geometric_height_m,
        0.0,
        9000.0,
        "m",
        "The equation was fitted from sea level to the highest summits.",
    )
    h = geometric_height_m / 1000
    return 1.333224 * math.exp(6.63268 - 0.1112 * h - 0.00149 * h * h)


@dataclass(frozen=True, slots=True)
class WinterCaution:
    """What a subarctic winter takes from the air of a camp."""

    standard_hpa: float
    winter_hpa: float
    felt_height_m: float
    sentence: str


def winter_caution(*, geometric_height_m: float) -> WinterCaution:
    """Pressure of a camp in a subarctic winter, the height that equals it [hPa, m], and the words.

    Range: 0 to 8000 m, refused outside.

    Source: ``profile_pressure_hpa`` for the subarctic winter against the standard atmosphere;
    status: computed. The climbing season of early summer lies between the two.

    Departs: the height that equals it is geopotential, at most 8 m less than the height on a map.

    Independent check: a published analysis puts a high-latitude summit of about 6200 m, in May and
    June, level with points 300 to 400 m higher on mountains of lower latitude (read); the
    figures here, for midwinter, are 315 m at 4300 m and 400 m at 6000 m.
    """
    require_within(
        "geometric_height_m",
        geometric_height_m,
        0.0,
        8000.0,
        "m",
        "Above 8000 m the equal height leaves the table.",
    )
    standard = standard_pressure_hpa(geometric_height_m=geometric_height_m)
    winter = profile_pressure_hpa(profile="subarctic_winter", geometric_height_m=geometric_height_m)
    felt = geopotential_height_of_pressure_m(pressure_hpa=winter)
    return WinterCaution(
        standard_hpa=standard,
        winter_hpa=winter,
        felt_height_m=felt,
        sentence=(
            f"In a subarctic winter the air at {geometric_height_m:.0f} m can have "
            f"{winter:.0f} hPa instead of {standard:.0f} hPa, as if the camp stood at {felt:.0f} m."
        ),
    )
