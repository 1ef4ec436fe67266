"""Force and energy of pulling a sled, by its mass, the slope and the friction of the snow."""

from __future__ import annotations

import math
from typing import Literal

from solver.calculators._ranges import require_choice, require_within

SnowState = Literal["cold", "firm_near_melting", "very_cold_or_new"]
Bound = Literal["high", "low"]

_STANDARD_GRAVITY_M_PER_S2 = 9.80665
_JOULES_PER_KCAL = 4184.0

_PLANNING_FRICTION = {
    "firm_near_melting": {"low": 0.03, "high": 0.06},
    "cold": {"low": 0.06, "high": 0.12},
    "very_cold_or_new": {"low": 0.12, "high": 0.25},
}


def sled_pull_newtons(*, sled_mass_kg: float, friction_coefficient: float, slope: float) -> float:
    """Steady pull along the track, negative where the sled pushes [N].

    Range: sled mass 0-200 kg with its load, friction coefficient 0-0.6, slope (rise over run)
    -0.6 to 0.6. Outside it: ValueError. Steady pull only: no starting, no ploughing through deep
    snow, no side slope.

    Source: mechanics of a block on an incline, m g (mu cos a + sin a), with standard gravity
    9.80665 m/s2. Computed, no publication.

    Departs: nowhere.

    Independent check: No independent check was found; limits that need no formula are tested: on
    the flat the pull is weight times friction, without friction it is the fall of the weight.
    """
    require_within("sled_mass_kg", sled_mass_kg, 0, 200, "kg")
    require_within("friction_coefficient", friction_coefficient, 0, 0.6, "(no unit)")
    require_within("slope", slope, -0.6, 0.6, "rise/run", "Write 8 % as 0.08.")
    angle = math.atan(slope)
    weight_n = sled_mass_kg * _STANDARD_GRAVITY_M_PER_S2
    return weight_n * (friction_coefficient * math.cos(angle) + math.sin(angle))


def sled_pull_kcal_per_km(
    *,
    sled_mass_kg: float,
    friction_coefficient: float,
    slope: float,
    muscular_efficiency: float,
) -> float:
    """Energy that the puller spends on the sled alone, a kilometre of track [kcal/km].

    Range: as sled_pull_newtons, with a muscular efficiency of 0.15-0.30. Outside it: ValueError.
    Net energy: it comes on top of the gross energy of walking.

    Source: pull times distance over efficiency, 1 kcal = 4184 J; an efficiency of 0.20-0.25 is
    from memory, unverified. The efficiency is an assumption that the caller must show.

    Departs: where the sled pushes, the result is clamped to 0: holding a sled back costs energy,
    but no model of it was found.

    Independent check: No independent check was found. Man-hauling is 446 kcal/h in all, walking
    included (Halsey et al. 2015, doi 10.1007/s00300-015-1818-5, abstract read; estimated from
    heart rate and acceleration), which the tests use as an upper bound for an ordinary load on
    the flat.
    """
    require_within("muscular_efficiency", muscular_efficiency, 0.15, 0.30, "(no unit)")
    pull_n = sled_pull_newtons(
        sled_mass_kg=sled_mass_kg, friction_coefficient=friction_coefficient, slope=slope
    )
    return max(0.0, pull_n) * 1000 / muscular_efficiency / _JOULES_PER_KCAL


def sled_push_angle_degrees(*, friction_coefficient: float) -> float:
    """Descent from which a sled runs by itself and pushes its hauler [degrees].

    Range: friction coefficient 0-0.6. Outside it: ValueError.

    Source: mechanics: the slope whose tangent is the friction coefficient. Computed, no
    publication.

    Departs: nowhere.

    Independent check: No independent check was found; the tests see that the pull vanishes at this
    angle.
    """
    require_within("friction_coefficient", friction_coefficient, 0, 0.6, "(no unit)")
    return math.degrees(math.atan(friction_coefficient))


def planning_friction_coefficient(*, snow_state: SnowState, bound: Bound) -> float:
    """Friction coefficient of a plastic sled to plan with, low or high end [1].

    Range: the snow states and bounds named in the types. Any other name: ValueError.

    Source: engineering assumption, from memory, unverified. That friction of polyethylene on snow
    is lowest near -3 degrees C and rises in the cold and near melting was read in a tribometer
    paper (The kinetic friction of polyethylen on snow); the numbers are not from there.

    Departs: nowhere, having no publication to depart from. Show it as an assumption.

    Independent check: No independent check was found; 10-60 N measured on skiers (Eur J Appl
    Physiol 1989, doi 10.1007/BF00637393, read) is about 0.015-0.08 of a 75 kg weight, the range
    of the lowest state.
    """
    bounds = require_choice("snow_state", snow_state, _PLANNING_FRICTION)
    return require_choice("bound", bound, bounds)
