"""Which clothing a camp or a leg asks for, by temperature and wind.

The bands are common practice, no source: a parka from about -15 degC, overboots and insulated
trousers before the first night or carry below -22 degC. People differ; the guide decides.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from solver.calculators._ranges import require_within
from solver.calculators.wind_chill import wind_chill_c


@dataclass(frozen=True, slots=True)
class ClothingBand:
    """A band of felt temperature and what it adds to the clothing of the milder bands."""

    name: str
    colder_than_c: float
    adds: tuple[str, ...]


# From mild to severe; a band begins where it feels colder than its limit or just as cold.
BANDS = (
    ClothingBand("cool", math.inf, ("base layers", "softshell", "light gloves", "hat")),
    ClothingBand("cold", -5.0, ("warm jacket", "insulated gloves", "shells")),
    ClothingBand("very cold", -15.0, ("parka", "mitts", "face cover")),
    ClothingBand("severe", -22.0, ("overboots", "insulated trousers", "goggles")),
    ClothingBand("extreme", -35.0, ("no bare skin", "spare mitts on the person")),
)


@dataclass(frozen=True, slots=True)
class Clothing:
    """The band of a place and all that is worn or at hand there."""

    felt_temperature_c: float
    band: str
    needed: tuple[str, ...]


def felt_temperature_c(*, air_temperature_c: float, wind_km_h: float) -> float:
    """Temperature that decides the clothing [degC].

    Range: -50 to 40 degC and 0 to 200 km/h, refused outside. Winds above 80 km/h are taken as
    80 km/h, where the published chart ends; above 10 degC the wind is left out.

    Source: ``wind_chill_c`` (Osczevski and Bluestein, 2005, doi 10.1175/BAMS-86-10-1453); status:
    read.

    Departs: wind chill is made for bare skin. Taken for the whole clothing it errs on the warm
    side: a wind moves a place into a colder band.

    Independent check: as for ``wind_chill_c``.
    """
    require_within("air_temperature_c", air_temperature_c, -50.0, 40.0, "degC")
    require_within("wind_km_h", wind_km_h, 0.0, 200.0, "km/h")
    if air_temperature_c > 10.0:
        return air_temperature_c
    return wind_chill_c(air_temperature_c=air_temperature_c, wind_km_h=min(wind_km_h, 80.0))


def clothing_for(
    *, air_temperature_c: float, wind_km_h: float, bands: Sequence[ClothingBand] = BANDS
) -> Clothing:
    """Clothing band of a camp or leg, with everything that it needs, by felt temperature [degC].

    Range: as ``felt_temperature_c``; the bands go from mild to severe and the first has no limit,
    refused otherwise.

    Source: common practice, no source; the limits and the clothing of the bands may be replaced.

    Departs: not a published model.

    Independent check: none was found.
    """
    limits = [band.colder_than_c for band in bands]
    if not bands or limits[0] != math.inf or limits != sorted(limits, reverse=True):
        raise ValueError("bands: give them from mild to severe, the first with the limit inf.")
    felt = felt_temperature_c(air_temperature_c=air_temperature_c, wind_km_h=wind_km_h)
    worn = [band for band in bands if felt <= band.colder_than_c]
    return Clothing(
        felt_temperature_c=felt,
        band=worn[-1].name,
        needed=tuple(thing for band in worn for thing in band.adds),
    )
