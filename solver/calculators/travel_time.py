"""Hours that a leg takes, by published rules of walking time.

All these rules are for light packs on a trail near sea level, without sled, rope or breaks. The
load factor at the end is a plain assumption that carries them over to hauling.
"""

from __future__ import annotations

import math
from typing import Literal

from solver.calculators._ranges import require_choice, require_within

Surface = Literal["off_path", "path"]
Movement = Literal["brush", "flat_or_down_on_foot", "ski_descent", "up_on_foot_or_ski"]

_TOBLER_SURFACE = {"path": 1.0, "off_path": 0.6}
_MUNTER_RATE = {
    "up_on_foot_or_ski": 4.0,
    "flat_or_down_on_foot": 6.0,
    "ski_descent": 10.0,
    "brush": 2.0,
}


def naismith_1892_hours(*, distance_km: float, ascent_m: float) -> float:
    """Walking time by Naismith's rule [h].

    Range: distance 0-60 km, ascent 0-4000 m. Outside it: ValueError.

    Source: Naismith (1892), Scottish Mountaineering Club Journal 2:136: three miles an hour and
    an hour for every 2000 ft of ascent. Read.

    Departs: the usual metric form, 5 km/h and 600 m/h, is 3.6 % faster over distance and 1.6 %
    slower in ascent than the miles and feet.

    Independent check: the rule in its own units: 10 miles and 2000 ft are 4 h 20 min.
    """
    _require_leg(distance_km=distance_km, ascent_m=ascent_m, descent_m=0)
    return distance_km / 5 + ascent_m / 600


def langmuir_hours(
    *,
    distance_km: float,
    ascent_m: float,
    gentle_descent_m: float,
    steep_descent_m: float,
    flat_speed_km_per_h: float,
) -> float:
    """Walking time by Naismith's rule with Langmuir's corrections for descents [h].

    Range: distance 0-60 km, ascent and descents 0-4000 m, flat speed 2-6 km/h (4 is usual off
    the track). Outside it: ValueError. Gentle means 5-12 degrees, steep means over 12 degrees;
    flatter descents count in neither. If the correction would leave less than the time of the
    distance at 10 km/h, that time is given.

    Source: Langmuir, Mountaincraft and Leadership: 10 minutes less for 300 m of gentle descent,
    10 minutes more for 300 m of steep descent. Rule read in texts that give it; the book from
    memory.

    Departs: the floor at 10 km/h is ours.

    Independent check: No independent check was found.
    """
    _require_leg(
        distance_km=distance_km, ascent_m=ascent_m, descent_m=gentle_descent_m + steep_descent_m
    )
    require_within("gentle_descent_m", gentle_descent_m, 0, 4000, "m")
    require_within("steep_descent_m", steep_descent_m, 0, 4000, "m")
    require_within("flat_speed_km_per_h", flat_speed_km_per_h, 2, 6, "km/h")
    correction_h = (steep_descent_m - gentle_descent_m) / 300 * 10 / 60
    hours = distance_km / flat_speed_km_per_h + ascent_m / 600 + correction_h
    return max(hours, distance_km / 10)


def tobler_1993_km_per_hour(*, slope: float, surface: Surface) -> float:
    """Walking speed by Tobler's hiking function [km/h].

    Range: slope (rise over run, signed in the walking direction) -0.7 to 0.7, our limit. Outside
    it: ValueError. The fastest slope is -0.05, so a way out and its way back differ.

    Source: Tobler (1993), Three presentations on geographical analysis and modeling, NCGIA
    Technical Report 93-1: 6 exp(-3.5 |s + 0.05|) km/h, times 0.6 off the path. Read.

    Departs: nowhere; the factor for riders is left out.

    Independent check: the report's own figures: 5 km/h on the flat, the maximum of 6 km/h at
    -2.86 degrees (read).
    """
    factor = require_choice("surface", surface, _TOBLER_SURFACE)
    require_within("slope", slope, -0.7, 0.7, "rise/run", "Write 8 % as 0.08.")
    return factor * 6 * math.exp(-3.5 * abs(slope + 0.05))


def din_33466_hours(*, distance_km: float, ascent_m: float, descent_m: float) -> float:
    """Walking time by the German signpost standard [h].

    Range: distance 0-60 km, ascent and descent 0-4000 m. Outside it: ValueError.

    Source: DIN 33466: 4 km/h, 300 m/h up, 500 m/h down; the longer of the horizontal and the
    vertical time plus half the shorter. Rule and worked examples read in alpine clubs' texts, not
    in the standard.

    Departs: nowhere.

    Independent check: worked examples of alpine clubs and a map maker: 8 km with 900 m up 4 h;
    8 km with 1200 m up 5 h; 10 km with 1200 m up 5 h 15; 20 km with 1460 m up and down 10 h 17.
    """
    _require_leg(distance_km=distance_km, ascent_m=ascent_m, descent_m=descent_m)
    horizontal_h = distance_km / 4
    vertical_h = ascent_m / 300 + descent_m / 500
    return max(horizontal_h, vertical_h) + min(horizontal_h, vertical_h) / 2


def sac_guidebook_hours(*, distance_km: float, ascent_m: float, descent_m: float) -> float:
    """Walking time by the Swiss guidebooks' rule [h].

    Range: distance 0-60 km, ascent and descent 0-4000 m. Outside it: ValueError.

    Source: Swiss Alpine Club guidebooks: 4 km/h, 400 m/h up, 800 m/h down, combined as in DIN
    33466. Rates read in texts that quote them.

    Departs: nowhere.

    Independent check: No independent check was found.
    """
    _require_leg(distance_km=distance_km, ascent_m=ascent_m, descent_m=descent_m)
    horizontal_h = distance_km / 4
    vertical_h = ascent_m / 400 + descent_m / 800
    return max(horizontal_h, vertical_h) + min(horizontal_h, vertical_h) / 2


def munter_rate(*, movement: Movement) -> float:
    """Rate of the Munter method by kind of movement [units/h].

    Range: the movements named in the type. Any other name: ValueError.

    Source: Munter, 3x3 Lawinen. Rates from memory, unverified; form and example read.

    Departs: nowhere. Roped parties with sleds are slower than the slowest of these: plan with 2
    or less and calibrate.

    Independent check: No independent check was found.
    """
    return require_choice("movement", movement, _MUNTER_RATE)


def munter_hours(
    *, distance_km: float, height_change_m: float, rate_units_per_hour: float
) -> float:
    """Travel time by the Munter method: kilometres plus hundreds of metres over a rate [h].

    Range: distance 0-60 km, height change 0-4000 m (its size, up or down), rate 1-12 units/h.
    Outside it: ValueError.

    Source: Munter, 3x3 Lawinen. Form and worked example read in a text that quotes it.

    Departs: nowhere.

    Independent check: the text's example: 9.5 km and 500 m take 3 h 38 min at rate 4 and 1 h 27
    min at rate 10.
    """
    _require_leg(distance_km=distance_km, ascent_m=height_change_m, descent_m=0)
    require_within("rate_units_per_hour", rate_units_per_hour, 1, 12, "units/h")
    return (distance_km + height_change_m / 100) / rate_units_per_hour


def loaded_hours(*, unloaded_hours: float, load_factor: float) -> float:
    """Travel time with packs and sleds, as a multiple of the rule's time [h].

    Range: unloaded time 0-24 h, load factor 1-5. Outside it: ValueError.

    Source: an assumption, common practice, no source: the rules know no loads, so the caller
    names a factor and shows it. Calibrate it with the party's first days.

    Departs: nowhere, having no publication to depart from.

    Independent check: No independent check was found.
    """
    require_within("unloaded_hours", unloaded_hours, 0, 24, "h")
    require_within("load_factor", load_factor, 1, 5, "times")
    return unloaded_hours * load_factor


def carrying_distance_km(*, one_way_km: float, loads: float) -> float:
    """Distance walked to move a number of loads one way, with the returns between them [km].

    Range: one way 0-60 km, loads 1-6 and whole. Outside it: ValueError.

    Source: counting: n loads are n ways out and n - 1 ways back.

    Departs: nowhere.

    Independent check: common practice's word for it: a double carry is three times the distance.
    """
    require_within("one_way_km", one_way_km, 0, 60, "km")
    require_within("loads", loads, 1, 6, "loads")
    if loads != int(loads):
        raise ValueError(f"loads: {loads:g} was given; give a whole number of loads.")
    return one_way_km * (2 * loads - 1)


def _require_leg(*, distance_km: float, ascent_m: float, descent_m: float) -> None:
    require_within("distance_km", distance_km, 0, 60, "km")
    require_within("ascent_m", ascent_m, 0, 4000, "m")
    require_within("descent_m", descent_m, 0, 4000, "m")
