"""Energy of walking with a heavy load, up or down, and of sinking into snow.

The equations of the 1970s stand in walking_energy.py. They read 12 to 33 % low with heavy loads and
need a correction downhill that jumps; the equation here has no such joint.
"""

from __future__ import annotations

import math

from solver.calculators._ranges import require_within

KCAL_PER_LITRE_OXYGEN = 4.9
"""Energy of a litre of oxygen on a mixed diet [kcal/L]; from memory, 4.69 fat to 5.05 sugar."""


def looney_2022_walking_watts_per_kg(
    *,
    resting_watts_per_kg: float,
    speed_m_per_s: float,
    grade_percent: float,
    load_fraction: float,
    terrain_factor: float,
) -> float:
    """Power of walking with a pack, up or down, a kilogram of body mass [W/kg].

    Range: speed 0-1.97 m/s and load 0-0.66 of body mass, as measured (abstract read); grade -40
    to 45 %, that of the graded term's own paper; resting rate 0.5-2.5 W/kg and terrain factor 1-4.5
    (our limits). Outside it: ValueError.

    Source: Looney et al. (2022), Modeling the Metabolic Costs of Heavy Military Backpacking, Med
    Sci Sports Exerc 54:646, PMC8919998, equation 4. Abstract read; the coefficients are those of
    two public programs that name the equation, the paper's own text was not read.

    Departs: nowhere known. It takes the place of pandolf_1977_walking_watts, which reads 12-33 %
    low with heavy loads, and of santee_2003_descent_watts, which jumps where a descent begins.

    Independent check: Ramaswamy et al. (1966), J Appl Physiol 21:1747 (abstract read): 9.0 L of
    oxygen a kilometre for 60 kg on firm ground; Tosi et al. (2009), J Sports Med Phys Fitness
    49:25-29 (abstract read): 10.6 J/(kg m) on packed snow at 21 % and 1.07 m/s.
    """
    require_within("resting_watts_per_kg", resting_watts_per_kg, 0.5, 2.5, "W/kg")
    require_within("speed_m_per_s", speed_m_per_s, 0, 1.97, "m/s")
    require_within("grade_percent", grade_percent, -40, 45, "%")
    require_within("load_fraction", load_fraction, 0, 0.66, "of body mass")
    require_within("terrain_factor", terrain_factor, 1, 4.5, "times paved")
    bend = 1 - math.pow(1.05, 1 - math.pow(1.1, grade_percent + 32))
    level = 1.78 * math.pow(speed_m_per_s, 0.58) + 0.27 * speed_m_per_s**4
    slope = 0.34 * speed_m_per_s * grade_percent * bend
    walking = 0.19 + terrain_factor * (level + slope)
    return resting_watts_per_kg + walking * (1 + 1.96 * math.pow(load_fraction, 1.36))


def ramaswamy_1966_sinking_kcal_per_km(*, moving_mass_kg: float, sinkage_cm: float) -> float:
    """Net energy of sinking into snow at each step, on top of walking on firm snow [kcal/km].

    Range: sinkage 0-37 cm, as measured, and body with load 40-200 kg (our limits). Outside it:
    ValueError. Deeper than 37 cm the measured cost rose steeply.

    Source: Ramaswamy et al. (1966), Effect of looseness of snow on energy expenditure in marching
    on snow-covered ground, J Appl Physiol 21:1747-1749, doi 10.1152/jappl.1966.21.6.1747 (abstract
    read): litres of oxygen a kilometre for 60 kg = 9.0 + 1.27 X^1.038, at 2270 m.

    Departs: the paper's 60 kg are scaled with the mass that moves, load and all, and 4.9 kcal are
    taken for a litre of oxygen. It takes the place of pandolf_1976_snow_terrain_factor, about half
    of the measured cost at 20 cm, and of erdc_snow_terrain_factor, twice the measured at 35 cm.

    Independent check: No independent check was found for the depths beyond firm snow.
    """
    require_within("moving_mass_kg", moving_mass_kg, 40, 200, "kg")
    require_within("sinkage_cm", sinkage_cm, 0, 37, "cm")
    litres_per_km = 1.27 * math.pow(sinkage_cm, 1.038)
    return KCAL_PER_LITRE_OXYGEN * litres_per_km * moving_mass_kg / 60
