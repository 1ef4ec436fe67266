"""Each argument's limits, as the docstrings name them: taken at the limit, refused beyond it.

The file is long because it is one table over all these calculators.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from solver.calculators import (
    aerobic_ceiling,
    body_mass,
    daily_energy,
    food_energy,
    generic_foods,
    load_carriage,
    loaded_walking,
    ration_check,
    resting_energy,
    sled_pull,
    solar_panel,
    stove_power,
    total_energy,
    travel_time,
    walking_energy,
    whole_day,
)

Limits = dict[str, tuple[float, float]]

# A function, arguments that it takes, and the limits of each argument beside those.
RANGES: list[tuple[Callable[..., Any], dict[str, Any], Limits]] = [
    (
        resting_energy.mifflin_1990_resting_kcal_per_day,
        {"sex": "male", "body_mass_kg": 75, "height_cm": 180, "age_years": 40},
        {"body_mass_kg": (30, 200), "height_cm": (130, 220), "age_years": (19, 78)},
    ),
    (
        resting_energy.fao_2004_basal_kcal_per_day,
        {"sex": "male", "body_mass_kg": 75, "age_years": 40},
        {"body_mass_kg": (30, 200), "age_years": (18, 90)},
    ),
    *(
        (
            equation,
            {"age_years": 40, "body_mass_kg": 75, "height_m": 1.8, "activity": "active"},
            {"age_years": (19, 90), "body_mass_kg": (40, 150), "height_m": (1.4, 2.1)},
        )
        for equation in (
            total_energy.iom_2005_men_kcal_per_day,
            total_energy.iom_2005_women_kcal_per_day,
        )
    ),
    (
        total_energy.nasem_2023_kcal_per_day,
        {
            "sex": "male",
            "age_years": 40,
            "body_mass_kg": 75,
            "height_cm": 180,
            "activity": "active",
        },
        {"age_years": (19, 90), "body_mass_kg": (40, 150), "height_cm": (140, 210)},
    ),
    (
        total_energy.fao_2004_total_kcal_per_day,
        {"basal_kcal_per_day": 1500, "physical_activity_level": 1.85},
        {"basal_kcal_per_day": (700, 3500), "physical_activity_level": (1.40, 2.40)},
    ),
    (
        walking_energy.pandolf_1976_snow_terrain_factor,
        {"footprint_depth_cm": 5},
        {"footprint_depth_cm": (0, 40)},
    ),
    (
        walking_energy.snow_compression_cm,
        {"snow_depth_cm": 20, "snow_density_g_per_cm3": 0.3},
        {"snow_depth_cm": (0, 100), "snow_density_g_per_cm3": (0.05, 0.9)},
    ),
    (
        walking_energy.erdc_snow_terrain_factor,
        {"compression_cm": 5},
        {"compression_cm": (0, 100)},
    ),
    (
        walking_energy.pandolf_1977_walking_watts,
        {
            "body_mass_kg": 120,
            "load_kg": 20,
            "speed_m_per_s": 1,
            "grade_percent": 5,
            "terrain_factor": 1,
        },
        {
            "body_mass_kg": (40, 150),
            "load_kg": (0, 100),
            "speed_m_per_s": (0, 2.5),
            "grade_percent": (0, 45),
            "terrain_factor": (1, 4.5),
        },
    ),
    (
        walking_energy.santee_2003_descent_watts,
        {
            "body_mass_kg": 120,
            "load_kg": 20,
            "speed_m_per_s": 1,
            "grade_percent": -5,
            "terrain_factor": 1,
        },
        {"load_kg": (0, 100), "grade_percent": (-30, 0)},
    ),
    (
        walking_energy.lcda_2019_level_watts_per_kg,
        {"speed_m_per_s": 1},
        {"speed_m_per_s": (0, 1.96)},
    ),
    (
        walking_energy.lcda_2019_graded_watts_per_kg,
        {"speed_m_per_s": 1, "grade_percent": 0},
        {"speed_m_per_s": (0, 1.96), "grade_percent": (-40, 45)},
    ),
    (
        walking_energy.minetti_2002_walking_j_per_kg_m,
        {"slope": 0},
        {"slope": (-0.45, 0.45)},
    ),
    (
        loaded_walking.looney_2022_walking_watts_per_kg,
        {
            "resting_watts_per_kg": 1,
            "speed_m_per_s": 1,
            "grade_percent": 5,
            "load_fraction": 0.3,
            "terrain_factor": 1,
        },
        {
            "resting_watts_per_kg": (0.5, 2.5),
            "speed_m_per_s": (0, 1.97),
            "grade_percent": (-40, 45),
            "load_fraction": (0, 0.66),
            "terrain_factor": (1, 4.5),
        },
    ),
    (
        loaded_walking.ramaswamy_1966_sinking_kcal_per_km,
        {"moving_mass_kg": 90, "sinkage_cm": 10},
        {"moving_mass_kg": (40, 200), "sinkage_cm": (0, 37)},
    ),
    (
        whole_day.resting_height_factor,
        {"elevation_m": 3000},
        {"elevation_m": (-430, 8849)},
    ),
    *(
        (rate, {"resting_kcal_per_hour": 70}, {"resting_kcal_per_hour": (20, 200)})
        for rate in (whole_day.sleeping_kcal_per_hour, whole_day.awake_kcal_per_hour)
    ),
    (
        whole_day.camp_work_kcal_per_hour,
        {"body_mass_kg": 80},
        {"body_mass_kg": (30, 200)},
    ),
    (
        whole_day.digestion_kcal,
        {"without_digestion_kcal": 1800},
        {"without_digestion_kcal": (0, 10_000)},
    ),
    (
        body_mass.mass_lost_kg,
        {"deficit_kcal": 5000, "fat_share": 0.6},
        {"deficit_kcal": (0, 500_000), "fat_share": (0.2, 0.9)},
    ),
    (
        body_mass.appetite_lost_share,
        {"elevation_m": 3000},
        {"elevation_m": (-430, 8849)},
    ),
    (
        stove_power.melting_hours,
        {"useful_kj": 10_000, "stoves": 2, "power_w": 800},
        {"useful_kj": (0, 2_000_000), "stoves": (1, 50), "power_w": (50, 5000)},
    ),
    (
        solar_panel.sun_above_air_mj_per_m2,
        {"latitude_deg": 60, "day_of_year": 100},
        {"latitude_deg": (-90, 90), "day_of_year": (1, 366)},
    ),
    (
        solar_panel.panel_wh_per_day,
        {"rated_w": 20, "latitude_deg": 60, "day_of_year": 100},
        {"rated_w": (0, 500)},
    ),
    (
        aerobic_ceiling.aerobic_share,
        {"elevation_m": 3000},
        {"elevation_m": (-430, 8849)},
    ),
    (
        aerobic_ceiling.aerobic_ceiling_kcal_per_hour,
        {"body_mass_kg": 80, "uptake_ml_per_kg_min": 45, "elevation_m": 3000},
        {"body_mass_kg": (30, 200), "uptake_ml_per_kg_min": (20, 90)},
    ),
    (
        sled_pull.sled_pull_newtons,
        {"sled_mass_kg": 40, "friction_coefficient": 0.1, "slope": 0},
        {"sled_mass_kg": (0, 200), "friction_coefficient": (0, 0.6), "slope": (-0.6, 0.6)},
    ),
    (
        sled_pull.sled_pull_kcal_per_km,
        {
            "sled_mass_kg": 40,
            "friction_coefficient": 0.1,
            "slope": 0,
            "muscular_efficiency": 0.25,
        },
        {"sled_mass_kg": (0, 200), "muscular_efficiency": (0.15, 0.30)},
    ),
    (
        sled_pull.sled_push_angle_degrees,
        {"friction_coefficient": 0.1},
        {"friction_coefficient": (0, 0.6)},
    ),
    (daily_energy.watts_to_kcal_per_hour, {"power_w": 500}, {"power_w": (0, 2500)}),
    (
        food_energy.atwater_energy_kcal,
        {
            "protein_g": 1,
            "available_carbohydrate_g": 1,
            "fat_g": 1,
            "fibre_g": 1,
            "alcohol_g": 1,
        },
        dict.fromkeys(
            ("protein_g", "available_carbohydrate_g", "fat_g", "fibre_g", "alcohol_g"),
            (0, 100_000),
        ),
    ),
    (
        food_energy.energy_density_kcal_per_g,
        {"energy_kcal": 1_000_000, "mass_g": 1_000_000},
        {"energy_kcal": (0, 1_000_000), "mass_g": (1_000_000 / 9.3, 1_000_000)},
    ),
    (food_energy.energy_density_kcal_per_g, {"energy_kcal": 5, "mass_g": 5}, {"mass_g": (1, 1e6)}),
    (
        food_energy.ration_mass_g,
        {"energy_kcal": 4000, "energy_density_kcal_per_g": 4},
        {"energy_kcal": (0, 1_000_000), "energy_density_kcal_per_g": (1, 9.3)},
    ),
    (
        food_energy.bulk_ration_kg,
        {"people": 4, "days": 8, "pounds_per_person_day": 2},
        {"people": (1, 50), "days": (1, 120), "pounds_per_person_day": (1, 3)},
    ),
    (
        ration_check.elevation_band,
        {"height_m": 3000, "mid_above_m": 2500, "high_above_m": 4267},
        {"height_m": (-430, 8849), "mid_above_m": (0, 4267), "high_above_m": (2500, 8849)},
    ),
    (
        ration_check.eaten_energy_kcal,
        {
            "offered_kcal": 4000,
            "height_m": 4000,
            "appetite_loss_from_m": 3000,
            "appetite_loss_fraction_per_km": 0.1,
        },
        {
            "offered_kcal": (0, 10_000),
            "height_m": (-430, 8849),
            "appetite_loss_from_m": (0, 8849),
            "appetite_loss_fraction_per_km": (0, 0.5),
        },
    ),
    (
        ration_check.energy_shortfall_kcal,
        {"eaten_kcal": 3000, "need_kcal": 4000},
        {"eaten_kcal": (0, 15_000), "need_kcal": (0, 15_000)},
    ),
    (
        generic_foods.generic_food_energy_kcal,
        {"food_id": "butter", "mass_g": 10},
        {"mass_g": (0, 100_000)},
    ),
    (
        travel_time.naismith_1892_hours,
        {"distance_km": 10, "ascent_m": 500},
        {"distance_km": (0, 60), "ascent_m": (0, 4000)},
    ),
    (
        travel_time.langmuir_hours,
        {
            "distance_km": 10,
            "ascent_m": 500,
            "gentle_descent_m": 0,
            "steep_descent_m": 0,
            "flat_speed_km_per_h": 4,
        },
        {
            "distance_km": (0, 60),
            "ascent_m": (0, 4000),
            "gentle_descent_m": (0, 4000),
            "steep_descent_m": (0, 4000),
            "flat_speed_km_per_h": (2, 6),
        },
    ),
    *(
        (
            rule,
            {"distance_km": 10, "ascent_m": 500, "descent_m": 500},
            {"distance_km": (0, 60), "ascent_m": (0, 4000), "descent_m": (0, 4000)},
        )
        for rule in (travel_time.din_33466_hours, travel_time.sac_guidebook_hours)
    ),
    (
        travel_time.munter_hours,
        {"distance_km": 10, "height_change_m": 500, "rate_units_per_hour": 4},
        {
            "distance_km": (0, 60),
            "height_change_m": (0, 4000),
            "rate_units_per_hour": (1, 12),
        },
    ),
    (
        travel_time.tobler_1993_km_per_hour,
        {"slope": 0, "surface": "path"},
        {"slope": (-0.7, 0.7)},
    ),
    (
        travel_time.loaded_hours,
        {"unloaded_hours": 5, "load_factor": 2},
        {"unloaded_hours": (0, 24), "load_factor": (1, 5)},
    ),
    (
        travel_time.carrying_distance_km,
        {"one_way_km": 5, "loads": 2},
        {"one_way_km": (0, 60), "loads": (1, 6)},
    ),
    (
        load_carriage.load_fraction,
        {"load_kg": 20, "body_mass_kg": 70},
        {"load_kg": (0, 150), "body_mass_kg": (30, 200)},
    ),
    (
        load_carriage.marshall_1950_pack_kg,
        {"body_mass_kg": 70},
        {"body_mass_kg": (30, 200)},
    ),
    (
        load_carriage.pack_band,
        {"pack_kg": 20, "body_mass_kg": 70},
        {"pack_kg": (0, 150), "body_mass_kg": (30, 200)},
    ),
    (
        load_carriage.hauled_band,
        {"pack_kg": 0, "sled_kg": 0, "body_mass_kg": 70},
        {"pack_kg": (0, 150), "sled_kg": (0, 150), "body_mass_kg": (30, 200)},
    ),
]
CASES = [
    pytest.param(function, good, argument, low, high, id=f"{function.__name__}-{argument}")
    for function, good, limits in RANGES
    for argument, (low, high) in limits.items()
]


@pytest.mark.parametrize(("function", "good", "argument", "low", "high"), CASES)
def test_limits_are_taken_and_what_lies_beyond_is_refused(
    function, good, argument: str, low: float, high: float
) -> None:
    """An argument is taken at both its limits and refused a thousandth of the range beyond them."""
    step = (high - low) / 1000
    function(**good | {argument: low})
    function(**good | {argument: high})
    for beyond in (low - step, high + step):
        with pytest.raises(ValueError, match="was given; allowed is"):
            function(**good | {argument: beyond})
    with pytest.raises(ValueError, match="nan"):
        function(**good | {argument: float("nan")})
