"""Air pressure, temperature and oxygen by height, after the standard atmosphere.

A height read from a map or a satellite receiver is geometric: metres of tape. The formulas of the
standard atmosphere take geopotential metres, in which gravity does not weaken with height. The two
differ by 3 m at 4300 m, worth 0.2 hPa, and every argument here says which one it wants.
"""

from __future__ import annotations

import math

from solver.calculators._ranges import require_within

EARTH_RADIUS_M = 6_356_766.0
SEA_LEVEL_PRESSURE_HPA = 1013.25
SEA_LEVEL_TEMPERATURE_K = 288.15
LAPSE_K_PER_M = 0.0065
PRESSURE_EXPONENT = 5.25588

_HEIGHT = "The lowest layer of the standard atmosphere ends at 11 000 m; nobody camps above 9000 m."


def geopotential_height_m(*, geometric_height_m: float) -> float:
    """Geopotential height of a point whose height on the map is known [m].

    Range: -500 to 9000 m, refused outside.

    Source: ICAO, Manual of the ICAO Standard Atmosphere, Doc 7488, 3rd ed. 1993: H = R z / (R + z)
    with R = 6 356 766 m; status: computed, agreed with two libraries to the last digit printed.

    Departs: does not.

    Independent check: the ambiance library 1.3.1.
    """
    z = geometric_height_m
    require_within("geometric_height_m", z, -500.0, 9000.0, "m", _HEIGHT)
    return EARTH_RADIUS_M * z / (EARTH_RADIUS_M + z)


def pressure_at_geopotential_hpa(*, geopotential_height_m: float) -> float:
    """Pressure of the standard atmosphere by geopotential height [hPa].

    Range: -501 to 9000 m, refused outside; -500 m on the map are -500.04 m here.

    Source: ICAO, Manual of the ICAO Standard Atmosphere, Doc 7488, 3rd ed. 1993 (below 32 km the
    same as the US Standard Atmosphere, 1976): P = 1013.25 (1 - 0.0065 H / 288.15)^5.25588;
    status: computed.

    Departs: does not. It is a yearly mean of middle latitudes: at high latitude in winter the true
    pressure is lower, see ``profile_pressure_hpa``.

    Independent check: heights printed for whole pressures in the ICAO table.
    """
    h = geopotential_height_m
    require_within("geopotential_height_m", h, -501.0, 9000.0, "m", _HEIGHT)
    ratio = 1.0 - LAPSE_K_PER_M * h / SEA_LEVEL_TEMPERATURE_K
    return float(SEA_LEVEL_PRESSURE_HPA * ratio**PRESSURE_EXPONENT)


def standard_pressure_hpa(*, geometric_height_m: float) -> float:
    """Pressure of the standard atmosphere by height on the map [hPa].

    Range: -500 to 9000 m, refused outside.

    Source: as ``pressure_at_geopotential_hpa``, after turning the height into geopotential metres;
    status: computed.

    Departs: does not.

    Independent check: the ambiance library 1.3.1 and the fluids library 1.3.1, which agree with
    each other to 0.01 hPa.
    """
    return pressure_at_geopotential_hpa(
        geopotential_height_m=geopotential_height_m(geometric_height_m=geometric_height_m)
    )


def geopotential_height_of_pressure_m(*, pressure_hpa: float) -> float:
    """Geopotential height at which the standard atmosphere has this pressure [m].

    Range: 307 to 1075 hPa, which is 9000 to -500 m; refused outside.

    Source: ICAO, Manual of the ICAO Standard Atmosphere, Doc 7488, 3rd ed. 1993, the inverse of the
    pressure formula with the exponent 0.190263; status: read (table).

    Departs: does not.

    Independent check: the ICAO table: 850, 800, 700, 600 and 400 hPa stand at 1457, 1949, 3012,
    4206 and 7185 m.
    """
    require_within("pressure_hpa", pressure_hpa, 307.0, 1075.0, "hPa", _HEIGHT)
    return (
        SEA_LEVEL_TEMPERATURE_K
        / LAPSE_K_PER_M
        * (1.0 - math.pow(pressure_hpa / SEA_LEVEL_PRESSURE_HPA, 0.190263))
    )


def standard_temperature_c(*, geometric_height_m: float) -> float:
    """Air temperature of the standard atmosphere by height on the map [degC].

    Range: -500 to 9000 m, refused outside.

    Source: ICAO, Manual of the ICAO Standard Atmosphere, Doc 7488, 3rd ed. 1993: 288.15 K less
    0.0065 K for each geopotential metre; status: computed.

    Departs: does not. It is a mean of middle latitudes and no forecast; a glacier's spring nights
    are colder.

    Independent check: the ambiance library 1.3.1.
    """
    height = geopotential_height_m(geometric_height_m=geometric_height_m)
    return SEA_LEVEL_TEMPERATURE_K - 273.15 - LAPSE_K_PER_M * height


def inspired_oxygen_hpa(*, pressure_hpa: float) -> float:
    """Partial pressure of oxygen in air that the windpipe has moistened [hPa].

    Range: 300 to 1100 hPa, refused outside.

    Source: 0.2094 (P - 62.7 hPa), 62.7 hPa being the pressure of water vapour at 37 degC; status:
    memory-unverified for the two constants, computed for the results.

    Departs: does not.

    Independent check: the vapour pressure at 37 degC from IAPWS-95 (CoolProp 8.0.0).
    """
    require_within("pressure_hpa", pressure_hpa, 300.0, 1100.0, "hPa", "Air that is breathed.")
    return 0.2094 * (pressure_hpa - 62.7)
