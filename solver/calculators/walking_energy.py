"""Energy of walking with a load, by speed, slope and ground.

All results are gross: the body's resting energy is inside them. Days are computed with the newer
equations of loaded_walking.py; these stay beside them to compare with. The file is longer than most
because each model carries its range, source and faults beside it.
"""

from __future__ import annotations

import math
from typing import Literal

from solver.calculators._ranges import require_choice, require_within

Ground = Literal[
    "bog",
    "dirt_road",
    "hard_packed_snow",
    "heavy_brush",
    "light_brush",
    "loose_sand",
    "paved",
    "soft_snow_15_cm",
    "soft_snow_25_cm",
    "soft_snow_35_cm",
]

_TERRAIN_FACTOR = {
    "paved": 1.0,
    "dirt_road": 1.1,
    "light_brush": 1.2,
    "hard_packed_snow": 1.3,
    "heavy_brush": 1.5,
    "bog": 1.8,
    "loose_sand": 2.1,
    "soft_snow_15_cm": 2.5,
    "soft_snow_25_cm": 3.3,
    "soft_snow_35_cm": 4.1,
}

ERDC_COMPRESSION_CAP_CM = 12.0
"""Compression above which the cubic terrain factor is held: beyond it the cubic runs away."""


def terrain_factor(*, ground: Ground) -> float:
    """Terrain factor that multiplies the walking part of the Pandolf equation [1].

    Range: the grounds named in the type. Any other name: ValueError.

    Source: Soule and Goldman (1972), Terrain coefficients for energy cost prediction, J Appl
    Physiol 32:706-708, and Pandolf, Haisman and Goldman (1976), Metabolic energy expenditure and
    terrain coefficients for walking on snow, Ergonomics 19:683-690, doi 10.1080/00140137608931583.
    Values from memory, unverified.

    Departs: nowhere.

    Independent check: No independent check was found. That the soft-snow values lie within 0.08 of
    the linear snow equation of 1976 is no check from outside: both are from memory.
    """
    return require_choice("ground", ground, _TERRAIN_FACTOR)


def pandolf_1976_snow_terrain_factor(*, footprint_depth_cm: float) -> float:
    """Terrain factor of snow by the depth of a footprint [1].

    Range: footprint depth 0-40 cm; the measurements reached about 35 cm (from memory,
    unverified). Outside it: ValueError.

    Source: Pandolf, Haisman and Goldman (1976), Metabolic energy expenditure and terrain
    coefficients for walking on snow, Ergonomics 19:683-690, doi 10.1080/00140137608931583. From
    memory, unverified.

    Departs: nowhere.

    Independent check: No independent check was found.
    """
    require_within("footprint_depth_cm", footprint_depth_cm, 0, 40, "cm")
    return 1.30 + 0.082 * footprint_depth_cm


def snow_compression_cm(*, snow_depth_cm: float, snow_density_g_per_cm3: float) -> float:
    """How far a walker presses the snow down [cm].

    Range: snow depth 0-100 cm, density 0.05-0.9 g/cm3 (our limits). Outside it: ValueError.

    Source: Terrain Coefficients for Predicting Energy Costs of Walking over Snow, US Army ERDC
    (library abstract read): z = depth x (1 - density / 1.186).

    Departs: the abstract gives no unit of the density; g/cm3 is our reading, since fresh snow
    must come out near its whole depth.

    Independent check: No independent check was found.
    """
    require_within("snow_depth_cm", snow_depth_cm, 0, 100, "cm")
    require_within("snow_density_g_per_cm3", snow_density_g_per_cm3, 0.05, 0.9, "g/cm3")
    return snow_depth_cm * (1 - snow_density_g_per_cm3 / 1.186)


def erdc_snow_terrain_factor(*, compression_cm: float) -> float:
    """Terrain factor of snow by the depth to which it is pressed, held from 12 cm on [1].

    Range: compression 0-100 cm, otherwise ValueError; from 12 cm on the value at 12 cm is given.

    Source: Terrain Coefficients for Predicting Energy Costs of Walking over Snow, US Army ERDC
    (library abstract read): 0.0005 z3 + 0.0001 z2 + 0.1072 z + 1.2604.

    Departs: the cap at 12 cm is ours. Against the linear equation of 1976 the cubic is within 10 %
    up to 5 cm and a third higher at 10 cm, but gives 2.5 times as much at 20 cm and 6 times at 35
    cm, which no measurement known to us supports.

    Independent check: No independent check was found.
    """
    require_within("compression_cm", compression_cm, 0, 100, "cm")
    z = min(compression_cm, ERDC_COMPRESSION_CAP_CM)
    return 0.0005 * z**3 + 0.0001 * z**2 + 0.1072 * z + 1.2604


def pandolf_1977_walking_watts(
    *,
    body_mass_kg: float,
    load_kg: float,
    speed_m_per_s: float,
    grade_percent: float,
    terrain_factor: float,
) -> float:
    """Power of standing or walking with a load, level or uphill [W].

    Range: body mass 40-150 kg, load 0-100 kg and not above the body mass, speed 0-2.5 m/s, grade
    0-45 %, terrain factor 1-4.5 (our limits). Outside it: ValueError; downhill has its own
    function.

    Source: Pandolf, Givoni and Goldman (1977), Predicting energy expenditure with loads while
    standing or walking very slowly, J Appl Physiol 43:577-581. Equation from memory and quoted in
    public programs; the paper was not read.

    Departs: nowhere. Known fault: it reads 12-33 % low for heavy loads (Drain et al. 2017,
    quoted).

    Independent check: No independent check was found: no worked example is published that we
    could read.
    """
    _require_walker(
        body_mass_kg=body_mass_kg,
        load_kg=load_kg,
        speed_m_per_s=speed_m_per_s,
        terrain_factor=terrain_factor,
    )
    require_within(
        "grade_percent", grade_percent, 0, 45, "%", "For a descent use santee_2003_descent_watts."
    )
    return _pandolf(body_mass_kg, load_kg, speed_m_per_s, grade_percent, terrain_factor)


def santee_2003_descent_watts(
    *,
    body_mass_kg: float,
    load_kg: float,
    speed_m_per_s: float,
    grade_percent: float,
    terrain_factor: float,
) -> float:
    """Power of walking downhill with a load, between standing and level walking [W].

    Range: as pandolf_1977_walking_watts, with a grade of -30 to 0 % (our limits; the field check
    went to -12 %). Outside it: ValueError.

    Source: Santee et al. (2001, 2003), US Army Research Institute of Environmental Medicine,
    correction of the Pandolf equation for descents. From memory, unverified. A field check of
    such corrections by the same authors, J Human-Environ Syst 6(2):69, was read in excerpt.

    Departs: the correction leaves a jump of some 20 W at the start of a descent and can leave
    the possible altogether, so the result is clamped: never above level walking, never below
    standing. At 0 % that gives the level value.

    Independent check: No independent check was found.
    """
    _require_walker(
        body_mass_kg=body_mass_kg,
        load_kg=load_kg,
        speed_m_per_s=speed_m_per_s,
        terrain_factor=terrain_factor,
    )
    require_within(
        "grade_percent", grade_percent, -30, 0, "%", "For an ascent use pandolf_1977_walking_watts."
    )
    level = _pandolf(body_mass_kg, load_kg, speed_m_per_s, 0, terrain_factor)
    total_kg = body_mass_kg + load_kg
    correction = terrain_factor * (
        grade_percent * total_kg * speed_m_per_s / 3.5
        - total_kg * (grade_percent + 6) ** 2 / body_mass_kg
        + (25 - speed_m_per_s**2)
    )
    uncorrected = _pandolf(body_mass_kg, load_kg, speed_m_per_s, grade_percent, terrain_factor)
    standing = _pandolf(body_mass_kg, load_kg, 0, 0, terrain_factor)
    return max(standing, min(level, uncorrected - correction))


def lcda_2019_level_watts_per_kg(*, speed_m_per_s: float) -> float:
    """Power of standing or level walking a kilogram of body mass [W/kg].

    Range: speed 0-1.96 m/s, the fastest in the paper (abstract read). Outside it: ValueError. No
    load: applied to body plus load it is an approximation that fails above about 30 % of body
    mass (Looney 2018, slides, read).

    Source: Looney et al. (2019), Metabolic costs of standing and walking in healthy military-age
    adults: a meta-regression, Med Sci Sports Exerc 51(2). Equation quoted in several texts; the
    abstract of the second paper (doi 10.1249/mss.0000000000002002) gives a standard error of
    0.20 W/kg (read).

    Departs: nowhere.

    Independent check: No independent check was found.
    """
    require_within("speed_m_per_s", speed_m_per_s, 0, 1.96, "m/s")
    return 1.44 + 1.94 * math.pow(speed_m_per_s, 0.43) + 0.24 * speed_m_per_s**4


def lcda_2019_graded_watts_per_kg(*, speed_m_per_s: float, grade_percent: float) -> float:
    """Power of walking up or down a kilogram of body mass [W/kg].

    Range: speed 0-1.96 m/s and grade -40 to 45 %, as in the paper (abstract read). Outside it:
    ValueError. No load: see lcda_2019_level_watts_per_kg.

    Source: Looney et al. (2019), Estimating energy expenditure during level, uphill, and downhill
    walking, Med Sci Sports Exerc 51(9):1954-1960, doi 10.1249/mss.0000000000002002. Equation
    quoted; standard error 0.42 W/kg (abstract read).

    Departs: nowhere known. Two of the texts that quote the equation have 1.1 as the inner base,
    as here, and two have 1.11; between -12 and +15 % grade that changes the result by up to 1 %
    uphill and 5 % downhill. The paper itself was not read.

    Independent check: No independent check was found.
    """
    level = lcda_2019_level_watts_per_kg(speed_m_per_s=speed_m_per_s)
    require_within("grade_percent", grade_percent, -40, 45, "%")
    bend = 1 - math.pow(1.05, 1 - math.pow(1.1, grade_percent + 32))
    return level + 0.34 * speed_m_per_s * grade_percent * bend


def minetti_2002_walking_j_per_kg_m(*, slope: float) -> float:
    """Energy of walking one metre of path a kilogram of body mass, by slope [J/(kg m)].

    Range: slope (rise over run) -0.45 to 0.45, the paper's treadmill. Outside it: ValueError.
    Gross energy at each subject's most economical speed, without a load.

    Source: Minetti et al. (2002), Energy cost of walking and running at extreme uphill and
    downhill slopes, J Appl Physiol 93:1039-1046, doi 10.1152/japplphysiol.01177.2001. Polynomial
    from memory; measured means read.

    Departs: nowhere. Known fault: on the flat the polynomial gives 2.5 where 1.64 +/- 0.50 was
    measured, so it overstates easy walking.

    Independent check: the paper's measured means at +0.45 (17.33 +/- 1.11), -0.45 (3.46 +/- 0.95)
    and -0.10 (0.81 +/- 0.37), within one standard deviation each.
    """
    require_within("slope", slope, -0.45, 0.45, "rise/run", "Write 8 % as 0.08.")
    i = slope
    return 280.5 * i**5 - 58.7 * i**4 - 76.8 * i**3 + 51.9 * i**2 + 19.6 * i + 2.5


def _require_walker(
    *, body_mass_kg: float, load_kg: float, speed_m_per_s: float, terrain_factor: float
) -> None:
    require_within("body_mass_kg", body_mass_kg, 40, 150, "kg")
    require_within("load_kg", load_kg, 0, min(100, body_mass_kg), "kg")
    require_within("speed_m_per_s", speed_m_per_s, 0, 2.5, "m/s")
    require_within("terrain_factor", terrain_factor, 1, 4.5, "times paved")


def _pandolf(
    body_mass_kg: float, load_kg: float, speed: float, grade_percent: float, terrain: float
) -> float:
    total_kg = body_mass_kg + load_kg
    standing = 1.5 * body_mass_kg + 2.0 * total_kg * (load_kg / body_mass_kg) ** 2
    return standing + terrain * total_kg * (1.5 * speed**2 + 0.35 * speed * grade_percent)
