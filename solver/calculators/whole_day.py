"""Rates that a whole day outdoors is put together from, besides walking and hauling."""

from __future__ import annotations

from solver.calculators._ranges import require_within

_HALSEY_MASS_KG = 80.0
_HALSEY_KCAL_PER_HOUR = 21.9 * 60 / 4.184


def resting_height_factor(*, elevation_m: float) -> float:
    """How many times its rate near sea level a resting body spends at an elevation [1].

    Range: elevation -430 to 8849 m. Outside it: ValueError.

    Source: 17-28 % above in the first weeks at 4300 m (Butterfield et al. 1992, J Appl Physiol
    72:1741, from memory, unverified); 10 % above at 5800 m after months (Gill and Pugh 1964,
    J Appl Physiol 19:949, abstract read). The line between is ours: none up to 2500 m, then
    evenly to 15 % at 4300 m, level from there.

    Departs: a single line for first weeks and long stays, between the two; people differ by more.

    Independent check: No independent check was found; the line stays within 10-28 % from 4300 m on.
    """
    require_within("elevation_m", elevation_m, -430, 8849, "m")
    share = min(1.0, max(0.0, (elevation_m - 2500) / (4300 - 2500)))
    return 1 + 0.15 * share


def sleeping_kcal_per_hour(*, resting_kcal_per_hour: float) -> float:
    """Energy of an hour asleep, before what digestion takes [kcal/h].

    Range: resting rate 20-200 kcal/h. Outside it: ValueError.

    Source: sleep takes about 5 % less than lying awake (FAO 2004, Human energy requirements, Food
    and Nutrition Technical Report 1, Table 5.1, from memory, unverified).

    Departs: nowhere.

    Independent check: No independent check was found.
    """
    require_within("resting_kcal_per_hour", resting_kcal_per_hour, 20, 200, "kcal/h")
    return 0.95 * resting_kcal_per_hour


def awake_kcal_per_hour(*, resting_kcal_per_hour: float) -> float:
    """Energy of an hour awake but still: sitting, eating, talking, sorting [kcal/h].

    Range: resting rate 20-200 kcal/h. Outside it: ValueError. Before what digestion takes.

    Source: activity ratios of sitting (1.2) to standing and light chores (1.4-1.5), FAO 2004,
    Human energy requirements, annex 5, from memory, unverified; 1.4 is taken.

    Departs: nowhere.

    Independent check: No independent check was found.
    """
    require_within("resting_kcal_per_hour", resting_kcal_per_hour, 20, 200, "kcal/h")
    return 1.4 * resting_kcal_per_hour


def camp_work_kcal_per_hour(*, body_mass_kg: float) -> float:
    """Energy of an hour of work in camp: digging, walls, tents, melting [kcal/h].

    Range: body mass 30-200 kg. Outside it: ValueError. Gross: rest and digestion are inside.

    Source: Halsey et al. (2015), Polar Biology 39:627-637, doi 10.1007/s00300-015-1818-5 (abstract
    read): 21.9 kJ/min for other outdoor work in the cold, 314 kcal/h. Not measured as oxygen: it is
    estimated from heart rate and acceleration.

    Departs: scaled with body mass from 80 kg, which is assumed; the abstract gives no mass.

    Independent check: Smolander et al. (1995, abstract read) measured 630 kcal/h while shovelling
    snow, so this rate is about half an hour of shovelling and half an hour standing by.
    """
    require_within("body_mass_kg", body_mass_kg, 30, 200, "kg")
    return _HALSEY_KCAL_PER_HOUR * body_mass_kg / _HALSEY_MASS_KG


def digestion_kcal(*, without_digestion_kcal: float) -> float:
    """Energy that digestion takes on top of parts that were estimated without it [kcal].

    Range: 0-10000 kcal. Outside it: ValueError. Not for hourly rates that were measured on people
    who had eaten: digestion is inside those.

    Source: about a tenth of what is eaten on a mixed diet (Westerterp 2004, Diet induced
    thermogenesis, Nutr Metab 1:5, from memory, unverified), so a ninth of the parts without it.

    Departs: nowhere.

    Independent check: No independent check was found.
    """
    require_within("without_digestion_kcal", without_digestion_kcal, 0, 10_000, "kcal")
    return without_digestion_kcal / 9
