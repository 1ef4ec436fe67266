"""Water that a person needs each day, with what is only melted apart from what is boiled."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from solver.calculators._ranges import require_choice, require_within

Setting = Literal["cold_heavy_work", "cold_general", "rule_of_thumb", "altitude", "forced"]
Band = Literal["low", "mid", "high", "storm"]

US_QUART_L = 0.946352946
US_FL_OZ_L = 0.0295735296

# Least and most, in litres; equal where the source has one figure.
_PUBLISHED = {
    "cold_heavy_work": (3.5 * US_QUART_L, 3.5 * US_QUART_L),
    "cold_general": (2.0 * US_QUART_L, 6.0 * US_QUART_L),
    "rule_of_thumb": (4.0 * US_QUART_L, 4.0 * US_QUART_L),
    "altitude": (4.25 * US_QUART_L, 4.25 * US_QUART_L),
    "forced": (6.0 * US_QUART_L, 8.0 * US_QUART_L),
}

# Litres per person-day, drinking and cooking together.
_PLANNED = {"low": 4.0, "mid": 4.3, "high": 4.6, "storm": 3.5}


def published_water_range_l(*, setting: Setting) -> tuple[float, float]:
    """Least and most drinking water per person-day that guidance names for a setting [L].

    Range: the five settings of the table, others refused.

    Source: cold and heavy work 3.5 US quarts: US Army TC 21-3, 1986, paragraph 5-3 (read); cold in
    general 2 to 6 quarts: USARIEM in courseware (quoted); rule of thumb 4 quarts: a mountaineering
    textbook (read); altitude "4.25 quarts or more": US military Force Health Protection manual
    (read); forced fluids 6 to 8 quarts: a mountain-warfare medicine course, page 20 (read).

    Departs: does not. Drinking more does not prevent altitude illness, and far too much harms
    (quoted); the better test is urine that is copious and clear.

    Independent check: the five sources against each other: all but the forced fluids lie within the
    1.9 to 5.7 L of the span for cold in general.
    """
    return require_choice("setting", setting, _PUBLISHED)


def rehydration_water_l(*, bags: float, fl_oz_per_bag: float = 34.0) -> float:
    """Hot water that dried meals take up [L].

    Range: 0 to 1000 bags, 0 to 100 US fl oz per bag; refused outside.

    Source: US Defense Logistics Agency, page on the meal, cold weather: 34 fl oz of water a bag,
    three bags a day; status: read.

    Departs: does not.

    Independent check: three bags, 3.02 L, the total printed beside it.
    """
    require_within("bags", bags, 0.0, 1000.0, "bags")
    require_within("fl_oz_per_bag", fl_oz_per_bag, 0.0, 100.0, "fl oz")
    return bags * fl_oz_per_bag * US_FL_OZ_L


@dataclass(frozen=True, slots=True)
class WaterNeed:
    """Water per person-day; melted and boiled add up to the total, rehydration is in the boiled."""

    total_l: float
    melted_l: float
    boiled_l: float
    rehydration_l: float


def water_need(
    *, band: Band = "low", rehydration_l: float = 1.0, hot_drinks_l: float = 1.0
) -> WaterNeed:
    """Water to make per person-day, melted and boiled apart [L].

    Range: rehydration 0 to 4 L, hot drinks 0 to 3 L; refused outside, and so is more boiled water
    than 6 L in all.

    Source: common practice, no source, inside the published ranges: 4.0 L low on the mountain,
    4.3 L in the middle, 4.6 L high up, 3.5 L on a storm day in the tent. A field study measured
    3.8 with a spread of 1 L (read).

    Departs: water that meals take up is inside the total, not on top of it, and all of it is
    boiled. If meals and hot drinks need more than the total, the total grows to them.

    Independent check: the band's total lies in ``published_water_range_l`` for cold in general.
    """
    planned = require_choice("band", band, _PLANNED)
    require_within("rehydration_l", rehydration_l, 0.0, 4.0, "L")
    require_within("hot_drinks_l", hot_drinks_l, 0.0, 3.0, "L")
    boiled = rehydration_l + hot_drinks_l
    require_within("rehydration_l plus hot_drinks_l", boiled, 0.0, 6.0, "L")
    total = max(planned, boiled)
    return WaterNeed(
        total_l=total, melted_l=total - boiled, boiled_l=boiled, rehydration_l=rehydration_l
    )
