"""Energy of one calendar day, put together from hours of activity and hours of rest."""

from __future__ import annotations

import math
from collections.abc import Sequence

from solver.calculators._ranges import require_within

_JOULES_PER_KCAL = 4184.0
_SECONDS_PER_HOUR = 3600.0


def watts_to_kcal_per_hour(*, power_w: float) -> float:
    """Metabolic power in kilocalories an hour [kcal/h].

    Range: 0-2500 W, more than a person can spend. Outside it: ValueError.

    Source: definition, 1 kcal = 4184 J.

    Departs: nowhere.

    Independent check: Halsey et al. (2015), doi 10.1007/s00300-015-1818-5: 31.1 kJ/min is given
    as man-hauling's rate (read); 518 W and 446 kcal/h are the same rate.
    """
    require_within("power_w", power_w, 0, 2500, "W")
    return power_w * _SECONDS_PER_HOUR / _JOULES_PER_KCAL


def daily_energy_kcal(
    *,
    activity_hours: Sequence[float],
    activity_kcal_per_hour: Sequence[float],
    extra_work_kcal: float,
    resting_kcal_per_hour: float,
) -> float:
    """Energy of a calendar day: gross activity hours, extra net work, rest for the rest [kcal].

    Range: as many rates as hours, hours that add to 24 at most, each rate 0-1500 kcal/h, extra
    work 0-6000 kcal, resting rate 30-150 kcal/h. Outside it: ValueError.

    Source: book-keeping that follows from gross rates, which hold the resting energy of their
    hours; a common practice, no source. Extra work is net work that no hourly rate holds, such as
    a sled's pull.

    Departs: it never adds 24 hours of resting energy to gross rates, which counts rest twice.

    Independent check: a hauling day of an 80 kg person comes to about 4460 kcal; bulk-ration
    guidance for very cold sled trips is 4000-5000 kcal (quoted) and 4173 +/- 848 kcal was
    measured on an ascent (Wilderness Environ Med 2013;24:337-344, read).
    """
    if len(activity_hours) != len(activity_kcal_per_hour):
        raise ValueError(
            f"activity_kcal_per_hour: {len(activity_kcal_per_hour)} rates were given for "
            f"{len(activity_hours)} stretches of hours; give one rate for each."
        )
    for hours, rate in zip(activity_hours, activity_kcal_per_hour, strict=True):
        require_within("activity_hours", hours, 0, 24, "h")
        require_within("activity_kcal_per_hour", rate, 0, 1500, "kcal/h")
    require_within("extra_work_kcal", extra_work_kcal, 0, 6000, "kcal")
    require_within("resting_kcal_per_hour", resting_kcal_per_hour, 30, 150, "kcal/h")
    active_hours = math.fsum(activity_hours)
    require_within("activity_hours", active_hours, 0, 24, "h in all")
    active_kcal = math.fsum(
        hours * rate for hours, rate in zip(activity_hours, activity_kcal_per_hour, strict=True)
    )
    return active_kcal + extra_work_kcal + (24 - active_hours) * resting_kcal_per_hour
