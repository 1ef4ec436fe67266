"""What moving over a stretch of ground costs a body, by equations held within their ranges."""

from __future__ import annotations

from dataclasses import dataclass

from solver.calculators.daily_energy import watts_to_kcal_per_hour
from solver.calculators.loaded_walking import (
    looney_2022_walking_watts_per_kg,
    ramaswamy_1966_sinking_kcal_per_km,
)
from solver.calculators.sled_pull import sled_pull_kcal_per_km

MUSCULAR_EFFICIENCY = 0.25
FOOTWEAR_FACTOR = 1.10
"""Boots, crampons and snowshoes on top of a treadmill's shoes: 0.7 to 1 % for each 100 g."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """Ground, time and load of one stretch; climbs and descents are equally steep."""

    hours: float
    distance_km: float
    ascent_m: float
    descent_m: float
    pack_kg: float
    sled_kg: float
    friction: float
    terrain_factor: float
    sinkage_cm: float


@dataclass(frozen=True, slots=True)
class Cost:
    """Energy of a stretch [kcal]: walking is gross, the sled net; `held` says what was held."""

    walking_kcal: float
    sled_kcal: float
    held: tuple[str, ...] = ()


class _Holder:
    """Takes the nearest valid value of what lies beyond a range, and keeps saying so."""

    def __init__(self) -> None:
        self.said: dict[str, None] = {}

    def within(self, name: str, value: float, low: float, high: float, unit: str) -> float:
        """The value, or the end of the range that it lies beyond."""
        if low <= value <= high:
            return value
        end = high if value > high else low
        self.said[f"{name} of {value:.3g} {unit} is taken as {end:g} {unit}"] = None
        return end


def moving_cost(stretch: Stretch, *, body_mass_kg: float, resting_kcal_per_hour: float) -> Cost:
    """Energy of a stretch, each value beyond an equation's range being held at its end [kcal]."""
    climbed_m = stretch.ascent_m + stretch.descent_m
    share_up = stretch.ascent_m / climbed_m if climbed_m else 1.0
    grade = climbed_m / (1000 * stretch.distance_km) if stretch.distance_km else 0.0
    hold = _Holder()
    walking = sled = 0.0
    for share, slope in ((share_up, grade), (1 - share_up, -grade)):
        if share > 0:
            walking += (
                share
                * stretch.hours
                * _walking_kcal_per_hour(stretch, slope, hold, body_mass_kg, resting_kcal_per_hour)
            )
            sled += share * _sled_kcal(stretch, slope, hold)
    mass_kg = hold.within("mass that sinks in", body_mass_kg + stretch.pack_kg, 40, 200, "kg")
    sinkage_cm = hold.within("sinkage", stretch.sinkage_cm, 0, 37, "cm")
    sinking = stretch.distance_km * ramaswamy_1966_sinking_kcal_per_km(
        moving_mass_kg=mass_kg, sinkage_cm=sinkage_cm
    )
    return Cost(walking + sinking, sled, tuple(hold.said))


def _walking_kcal_per_hour(
    stretch: Stretch, slope: float, hold: _Holder, body_mass_kg: float, resting: float
) -> float:
    """Gross rate of walking on firm ground; a climb too steep is held at its metres an hour."""
    speed = stretch.distance_km / stretch.hours / 3.6 if stretch.hours else 0.0
    percent = hold.within("a slope", 100 * slope, -40, 45, "%")
    if 100 * slope > percent > 0:
        speed *= 100 * slope / percent
    resting_w_per_kg = resting * 4184 / 3600 / body_mass_kg
    resting_w_per_kg = hold.within("a resting rate", resting_w_per_kg, 0.5, 2.5, "W/kg")
    gross = looney_2022_walking_watts_per_kg(
        resting_watts_per_kg=resting_w_per_kg,
        speed_m_per_s=hold.within("a speed", speed, 0, 1.97, "m/s"),
        grade_percent=percent,
        load_fraction=hold.within(
            "a pack", stretch.pack_kg / body_mass_kg, 0, 0.66, "of body mass"
        ),
        terrain_factor=stretch.terrain_factor,
    )
    shod = resting_w_per_kg + FOOTWEAR_FACTOR * (gross - resting_w_per_kg)
    return watts_to_kcal_per_hour(power_w=min(2500.0, shod * body_mass_kg))


def _sled_kcal(stretch: Stretch, slope: float, hold: _Holder) -> float:
    """Net work on the sled over the whole distance at that slope; none where it pushes."""
    if not stretch.sled_kg:
        return 0.0
    return stretch.distance_km * sled_pull_kcal_per_km(
        sled_mass_kg=hold.within("a sled", stretch.sled_kg, 0, 200, "kg"),
        friction_coefficient=stretch.friction,
        slope=hold.within("a sled's slope", slope, -0.6, 0.6, "rise/run"),
        muscular_efficiency=MUSCULAR_EFFICIENCY,
    )
