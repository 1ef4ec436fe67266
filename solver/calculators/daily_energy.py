"""Metabolic power as energy an hour."""

from __future__ import annotations

from solver.calculators._ranges import require_within

_JOULES_PER_KCAL = 4184.0
_SECONDS_PER_HOUR = 3600.0


def watts_to_kcal_per_hour(*, power_w: float) -> float:
    """Metabolic power in kilocalories an hour [kcal/h].

    Range: 0-2500 W, more than a person can spend. Outside it: ValueError.

    Source: definition, 1 kcal = 4184 J.

    Departs: nowhere.

    Independent check: Halsey et al. (2015), doi 10.1007/s00300-015-1818-5: 31.1 kJ/min is given
    as man-hauling's rate, estimated from heart rate and acceleration (abstract read); 518 W and
    446 kcal/h are the same rate.
    """
    require_within("power_w", power_w, 0, 2500, "W")
    return power_w * _SECONDS_PER_HOUR / _JOULES_PER_KCAL
