"""Temperature at which water boils, and how much longer food takes there."""

from __future__ import annotations

import math

from solver.calculators._ranges import require_within
from solver.calculators.atmosphere import standard_pressure_hpa

# The ten coefficients of region 4, the saturation line.
_N = (
    1167.0521452767,
    -724213.16703206,
    -17.073846940092,
    12020.824702470,
    -3232555.0322333,
    14.915108613530,
    -4823.2657361591,
    405113.40542057,
    -0.23855557567849,
    650.17534844798,
)


def boiling_point_c(*, pressure_hpa: float) -> float:
    """Boiling point of water at an air pressure [degC].

    Range: 300 to 1100 hPa, refused outside.

    Source: IAPWS R7-97(2012), Revised Release on the Industrial Formulation 1997 for the
    Thermodynamic Properties of Water and Steam, region 4, equation 31; status:
    memory-unverified for the coefficients, which the check below confirms to ten digits.

    Departs: does not. Water is taken as pure; salt and food raise the boiling point by tenths.

    Independent check: the release's own verification table (1 bar: 372.755919 K) and IAPWS-95,
    evaluated by the CoolProp library 8.0.0, within 0.001 K.
    """
    require_within(
        "pressure_hpa",
        pressure_hpa,
        300.0,
        1100.0,
        "hPa",
        "That is the air of every place from below sea level to above 9000 m.",
    )
    n = _N
    b = math.pow(pressure_hpa / 10_000.0, 0.25)
    e = b * b + n[2] * b + n[5]
    f = n[0] * b * b + n[3] * b + n[6]
    g = n[1] * b * b + n[4] * b + n[7]
    d = 2 * g / (-f - math.sqrt(f * f - 4 * e * g))
    kelvin = (n[9] + d - math.sqrt((n[9] + d) ** 2 - 4 * (n[8] + n[9] * d))) / 2
    return kelvin - 273.15


def boiling_point_at_height_c(*, geometric_height_m: float) -> float:
    """Boiling point of water at a height on the map, in the standard atmosphere [degC].

    Range: -500 to 9000 m, refused outside.

    Source: ``boiling_point_c`` at ``standard_pressure_hpa``; status: computed.

    Departs: weather and season move it: a storm's 20 hPa by 0.8 K, a subarctic winter by 1.0 K at
    4300 m.

    Independent check: CoolProp 8.0.0 at the pressure of the ambiance library 1.3.1.
    """
    return boiling_point_c(
        pressure_hpa=standard_pressure_hpa(geometric_height_m=geometric_height_m)
    )


def cooking_time_factor(*, boiling_point_c: float, doubling_k: float = 10.0) -> float:
    """How many times longer food simmers than at sea level [-].

    Range: boiling point 70 to 100.5 degC and doubling_k 5 to 20 K, refused outside; the factor is
    never below 1.

    Source: common practice, no source: cooking slows by half for each 10 K, the usual rule for
    the speed of reactions.

    Departs: not a published model. It exists so that the energy saved by a low boiling point is
    never credited without the longer burning: dried food that only soaks is closer to 1.

    Independent check: none was found.
    """
    require_within(
        "boiling_point_c",
        boiling_point_c,
        70.0,
        100.5,
        "degC",
        "Boiling points of places where people camp.",
    )
    require_within("doubling_k", doubling_k, 5.0, 20.0, "K", "It is a rule of thumb near 10.")
    return max(1.0, math.pow(2.0, (100.0 - boiling_point_c) / doubling_k))
