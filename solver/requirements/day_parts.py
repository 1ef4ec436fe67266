"""A whole day of a body, part by part, with how far each part can be off."""

from __future__ import annotations

import math
from dataclasses import dataclass

from solver.calculators.whole_day import (
    awake_kcal_per_hour,
    camp_work_kcal_per_hour,
    digestion_kcal,
    sleeping_kcal_per_hour,
)
from solver.requirements.surroundings import PRACTICE

SLEEP_H = 8.0
MOVING_CAMP_WORK_H = 4.0
OTHER_CAMP_WORK_H = 2.5
MOST_KCAL = 15_000.0
"""More than anybody was measured to spend in a day: 11,640 kcal hauling (Stroud 1996)."""

REST_SHARE = 0.10
AWAKE_SHARE = 0.15
TRAVEL_SHARE = 0.20
SLED_SHARE = 0.50
CAMP_SHARE = 0.40
DIGESTION_SHARE = 0.30
SHARES_SOURCE = (
    "off by 10 % asleep, 15 % awake, 20 % on the way, 50 % for the sled's friction, 40 % for the "
    f"work in camp, 30 % for digestion, added as independent errors: {PRACTICE}"
)


@dataclass(frozen=True, slots=True)
class DayPart:
    """Energy of one part of a day, and half the width of its range [kcal]."""

    name: str
    kcal: float
    off_kcal: float


@dataclass(frozen=True, slots=True)
class WholeDay:
    """All parts of a day in the order of the formula, their sum and half its range [kcal]."""

    parts: tuple[DayPart, ...]
    kcal: float
    off_kcal: float

    @property
    def most_uncertain(self) -> str:
        """The part that widens the range most."""
        return max(self.parts, key=lambda part: part.off_kcal).name

    def part(self, name: str) -> DayPart:
        """The part of that name; KeyError when there is none."""
        return {part.name: part for part in self.parts}[name]


def whole_day(
    *,
    resting_kcal_per_hour: float,
    body_mass_kg: float,
    travel_h: float,
    camp_work_h: float,
    travel_kcal: float,
    sled_kcal: float,
    travel_off_kcal: float = 0.0,
    sleep_h: float = SLEEP_H,
) -> WholeDay:
    """A day of 24 h: asleep, awake, on the way, at the sled, at work in camp, digesting [kcal].

    Where the way is long, first the hours awake, then those at work, then those asleep give way.
    Digestion is added to the hours asleep and awake alone: measured rates of travel and work
    hold it. Travel and sled are held so that the day is at most `MOST_KCAL`.
    `travel_off_kcal` is what an assumed distance adds to the error of travel.
    """
    on_the_way_h = min(24.0, travel_h)
    work_h = min(camp_work_h, max(0.0, 24 - sleep_h - on_the_way_h))
    asleep_h = min(sleep_h, 24 - on_the_way_h)
    awake_h = max(0.0, 24 - on_the_way_h - work_h - asleep_h)
    asleep = asleep_h * sleeping_kcal_per_hour(resting_kcal_per_hour=resting_kcal_per_hour)
    awake = awake_h * awake_kcal_per_hour(resting_kcal_per_hour=resting_kcal_per_hour)
    work = work_h * camp_work_kcal_per_hour(body_mass_kg=body_mass_kg)
    digested = digestion_kcal(without_digestion_kcal=asleep + awake)
    moved = travel_kcal + sled_kcal
    held = min(1.0, (MOST_KCAL - asleep - awake - work - digested) / moved) if moved else 1.0
    travel_kcal, sled_kcal = held * travel_kcal, held * sled_kcal
    parts = (
        DayPart("asleep", asleep, REST_SHARE * asleep),
        DayPart("awake", awake, AWAKE_SHARE * awake),
        DayPart("travel", travel_kcal, math.hypot(TRAVEL_SHARE * travel_kcal, travel_off_kcal)),
        DayPart("sled", sled_kcal, SLED_SHARE * sled_kcal),
        DayPart("camp_work", work, CAMP_SHARE * work),
        DayPart("digestion", digested, DIGESTION_SHARE * digested),
    )
    return WholeDay(
        parts,
        min(MOST_KCAL, math.fsum([part.kcal for part in parts])),
        math.hypot(*[part.off_kcal for part in parts]),
    )
