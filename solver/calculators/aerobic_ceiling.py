"""How much a body can spend at most, and how much of that it keeps up, by elevation."""

from __future__ import annotations

from solver.calculators._ranges import require_within
from solver.calculators.loaded_walking import KCAL_PER_LITRE_OXYGEN


def aerobic_share(*, elevation_m: float) -> float:
    """Share of the highest oxygen uptake near sea level that is left at an elevation [1].

    Range: elevation -430 to 8849 m. Outside it: ValueError.

    Source: about 10 % less for each 1000 m above 1200 m (a text on exercise physiology, quoted).

    Departs: acclimatised or not, fit or not, people differ by a tenth; about 50 % at 5300 m without
    acclimatisation is quoted too (MacInnis et al. 2015, Med Sci Sports Exerc 47:1869-1876), where
    this line leaves 59 %.

    Independent check: Buskirk et al. 1967, J Appl Physiol 23:259-266 (read): 26 % less at 4000 m
    than at 300 m.
    """
    require_within("elevation_m", elevation_m, -430, 8849, "m")
    return 1 - 0.1 * max(0.0, elevation_m - 1200) / 1000


def aerobic_ceiling_kcal_per_hour(
    *, body_mass_kg: float, uptake_ml_per_kg_min: float, elevation_m: float
) -> float:
    """Most energy that a body can spend in an hour with the oxygen of an elevation [kcal/h].

    Range: body mass 30-200 kg, highest uptake near sea level 20-90 mL/(kg min); elevation as
    aerobic_share. Outside it: ValueError. Nobody keeps this up for longer than minutes.

    Source: definition, 4.9 kcal for a litre of oxygen (from memory, unverified).

    Departs: nowhere.

    Independent check: No independent check was found; it is arithmetic on aerobic_share.
    """
    require_within("body_mass_kg", body_mass_kg, 30, 200, "kg")
    require_within("uptake_ml_per_kg_min", uptake_ml_per_kg_min, 20, 90, "mL/(kg min)")
    litres_per_hour = body_mass_kg * uptake_ml_per_kg_min * 60 / 1000
    return KCAL_PER_LITRE_OXYGEN * litres_per_hour * aerobic_share(elevation_m=elevation_m)
