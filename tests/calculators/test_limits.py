"""Every stated limit of the snow, fuel, gas, air, cold and small-need calculators, at its edges.

The file is longer than most because it is one table of all limits, which is read as a whole.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from solver.calculators import (
    atmosphere,
    battery_cold,
    body_surface,
    boiling_point,
    canister_answer,
    canister_gas,
    clothing_band,
    consumables,
    fuel_chain,
    fuel_containers,
    fuels,
    marking,
    saturation_pressure,
    season_atmosphere,
    sleeping_elevation,
    snow_melt,
    sun_cream,
    toilet_and_waste,
    warmers,
    water_need,
    water_treatment,
    wind_chill,
)

BLEND = canister_gas.GasBlend(propane_mass_fraction=0.2, isobutane_mass_fraction=0.8)
NIGHTS = [sleeping_elevation.Night(3000.0), sleeping_elevation.Night(3300.0)]
CHAIN: dict[str, Any] = {
    "melted_l": 3.0,
    "boiled_l": 2.0,
    "snow_temperature_c": -15.0,
    "pressure_hpa": 593.0,
    "fuel": fuels.fuel_named(name="white_gas"),
}
CAN: dict[str, Any] = {
    "fuel_ml": 100.0,
    "container": fuel_containers.CAN_4_L,
    "density_kg_per_l": 0.725,
}
CANISTER: dict[str, Any] = {"gas_g": 100.0, "canister": fuel_containers.CANISTER_230_G}
BLISTER: dict[str, Any] = {"consumable": consumables.COMMON[0], "persons": 1, "days": 1.0}


def can(**change: float) -> object:
    """Cans of a changed kind for a fixed amount of fuel."""
    return fuel_containers.liquid_containers(
        **CAN | {"container": replace(fuel_containers.CAN_4_L, **change)}
    )


def canister(**change: float) -> object:
    """Canisters of a changed kind for a fixed amount of gas."""
    return fuel_containers.gas_canisters(
        **CANISTER | {"canister": replace(fuel_containers.CANISTER_230_G, **change)}
    )


def sleep_at(sleeping_m: float) -> object:
    """Findings of a single night at a height."""
    return sleeping_elevation.sleeping_findings(
        nights=[sleeping_elevation.Night(sleeping_m)], rule=sleeping_elevation.RULES["wms"]
    )


def mean_gain_at(sleeping_m: float) -> object:
    """Mean gain of a single night at a height."""
    return sleeping_elevation.mean_gain_m_per_night(
        nights=[sleeping_elevation.Night(sleeping_m)], threshold_m=3000.0
    )


# A function, arguments that it takes, and for each argument the least and most that it takes.
Case = tuple[Callable[..., object], dict[str, Any], dict[str, tuple[float, float]]]
HPA = (300.0, 1100.0)
MAP_M = (-500.0, 9000.0)
FROM_ZERO = (0.0, math.inf)
PERSON_DAYS = (0.0, 10_000.0)
CANISTER_C = (-60.0, 60.0)
LEFT = (0.001, 1.0)
CASES: list[Case] = [
    (snow_melt.ice_heat_capacity_kj_per_kg_k, {}, {"temperature_c": (-40, 0)}),
    (snow_melt.warming_snow_kj_per_kg, {}, {"snow_temperature_c": (-40, 0)}),
    (snow_melt.warming_water_kj_per_kg, {"from_c": 0}, {"to_c": (0, 100)}),
    (snow_melt.warming_water_kj_per_kg, {"to_c": 100}, {"from_c": (0, 100)}),
    (snow_melt.vaporising_water_kj_per_kg, {}, {"temperature_c": (70, 100)}),
    (
        snow_melt.snow_volume_l,
        {"water_l": 1, "snow_density_kg_per_m3": 300},
        {"water_l": FROM_ZERO, "snow_density_kg_per_m3": (20, 917)},
    ),
    (atmosphere.geopotential_height_m, {}, {"geometric_height_m": MAP_M}),
    (atmosphere.pressure_at_geopotential_hpa, {}, {"geopotential_height_m": (-501, 9000)}),
    (atmosphere.standard_pressure_hpa, {}, {"geometric_height_m": MAP_M}),
    (atmosphere.standard_temperature_c, {}, {"geometric_height_m": MAP_M}),
    (atmosphere.geopotential_height_of_pressure_m, {}, {"pressure_hpa": (307, 1075)}),
    (atmosphere.inspired_oxygen_hpa, {}, {"pressure_hpa": HPA}),
    (
        season_atmosphere.profile_pressure_hpa,
        {"profile": "tropical"},
        {"geometric_height_m": (0, 9000)},
    ),
    (season_atmosphere.low_latitude_pressure_hpa, {}, {"geometric_height_m": (0, 9000)}),
    (season_atmosphere.winter_caution, {}, {"geometric_height_m": (0, 8000)}),
    (boiling_point.boiling_point_c, {}, {"pressure_hpa": HPA}),
    (boiling_point.boiling_point_at_height_c, {}, {"geometric_height_m": MAP_M}),
    (
        boiling_point.cooking_time_factor,
        {"boiling_point_c": 90},
        {"boiling_point_c": (70, 100.5), "doubling_k": (5, 20)},
    ),
    (
        wind_chill.wind_chill_c,
        {"air_temperature_c": -10, "wind_km_h": 20},
        {"air_temperature_c": (-50, 10), "wind_km_h": (0, 80)},
    ),
    (
        wind_chill.wind_chill_f,
        {"air_temperature_f": 10, "wind_mph": 20},
        {"air_temperature_f": (-45, 50), "wind_mph": (0, 60)},
    ),
    (wind_chill.frostbite_band, {}, {"wind_chill_c": (-100, 10)}),
    (
        wind_chill.frostbite_minutes,
        {"air_temperature_c": -40, "wind_km_h": 40},
        {"wind_km_h": (25, 80)},
    ),
    (
        wind_chill.frostbite_minutes,
        {"air_temperature_c": -40, "wind_km_h": 79},
        {"air_temperature_c": (-50, -15)},
    ),
    (
        clothing_band.felt_temperature_c,
        {"air_temperature_c": -10, "wind_km_h": 20},
        {"air_temperature_c": (-50, 40), "wind_km_h": (0, 200)},
    ),
    (
        body_surface.dubois_1916_m2,
        {"body_mass_kg": 75, "height_cm": 178},
        {"body_mass_kg": (30, 200), "height_cm": (120, 220)},
    ),
    (
        sun_cream.full_dose_g,
        {"body_surface_m2": 1.8, "exposed_share": 0.05},
        {"body_surface_m2": (1, 3), "exposed_share": (0, 1)},
    ),
    (
        sun_cream.sun_cream_g,
        {"days": 10},
        {"days": (0, 120), "applications_per_day": (1, 8), "dose_share": (0.25, 1)},
    ),
    (sun_cream.ultraviolet_factor, {}, {"height_gain_m": (0, 9000)}),
    (battery_cold.battery_capacity_share, {}, {"cell_temperature_c": (-30, 60)}),
    (battery_cold.may_charge, {}, {"cell_temperature_c": (-60, 60)}),
    (
        battery_cold.batteries_needed,
        {"energy_wh": 10, "battery_wh": 5, "cell_temperature_c": 0},
        {"energy_wh": (0, 5000), "battery_wh": (0.5, 500), "spare_share": (0, 1)},
    ),
    (warmers.hand_warmer_pairs, {}, {"severe_days": (0, 120)}),
    (warmers.insole_warmer_pairs, {}, {"summit_felt_temperature_c": (-80, 10)}),
    (
        toilet_and_waste.measured_faeces_g,
        {"person_days": 1},
        {"person_days": PERSON_DAYS, "diet_factor": (1, 2)},
    ),
    (toilet_and_waste.toilet_events, {}, {"person_days": PERSON_DAYS}),
    (
        toilet_and_waste.toilet_paper_g,
        {"person_days": 1},
        {"person_days": PERSON_DAYS, "g_per_person_day": (0, 50)},
    ),
    (
        toilet_and_waste.containers_by_volume,
        {"person_days": 1, "container_l": 8},
        {
            "person_days": PERSON_DAYS,
            "container_l": (1, 60),
            "l_per_person_day": (0.15, 1),
            "l_moved_to_sacks": FROM_ZERO,
        },
    ),
    (
        toilet_and_waste.containers_by_uses,
        {"person_days": 1, "uses_per_container": 10},
        {"person_days": PERSON_DAYS, "uses_per_container": (1, 200)},
    ),
    (
        toilet_and_waste.waste_need,
        {"person_days": 1},
        {"person_days": PERSON_DAYS, "container_l": (1, 60)},
    ),
    (
        marking.cache_pole_count,
        {"stock_volume_l": 100},
        {"stock_volume_l": (0, 5000), "l_per_pole": (20, 1000)},
    ),
    (
        marking.cache_pole_length_m,
        {"expected_snow_m": 1},
        {
            "expected_snow_m": (0, 3),
            "burial_depth_m": (0.3, 3),
            "set_depth_m": (0.3, 1.5),
            "stay_proud_m": (0.3, 2),
        },
    ),
    (
        marking.route_wand_count,
        {"distance_m": 100, "rope_team_length_m": 50},
        {
            "distance_m": (0, 100_000),
            "rope_team_length_m": (5, 200),
            "spare_share": (0, 1),
        },
    ),
    (
        marking.cross_line_marker_count,
        {"search_error_m": 100, "spacing_m": 30},
        {"search_error_m": (0, 10_000), "spacing_m": (5, 1000)},
    ),
    (water_treatment.boil_minutes, {}, {"geometric_height_m": MAP_M}),
    (
        water_treatment.treatment_doses,
        {"untreated_l": 10},
        {"untreated_l": (0, 10_000), "l_per_dose": (0.5, 20), "doses_per_pack": (1, 500)},
    ),
    (consumables.consumable_need, BLISTER, {"persons": (0, 100), "days": (0, 120)}),
    (
        water_need.rehydration_water_l,
        {"bags": 3},
        {"bags": (0, 1000), "fl_oz_per_bag": (0, 100)},
    ),
    (water_need.water_need, {"hot_drinks_l": 0}, {"rehydration_l": (0, 4)}),
    (water_need.water_need, {"rehydration_l": 0}, {"hot_drinks_l": (0, 3)}),
    (water_need.water_need, {"rehydration_l": 4}, {"hot_drinks_l": (0, 2)}),
    (
        fuel_chain.fuel_for_water,
        CHAIN,
        {
            "melted_l": (0, 500),
            "boiled_l": (0, 500),
            "snow_temperature_c": (-40, 0),
            "pressure_hpa": HPA,
            "efficiency": (0.10, 0.75),
            "drink_temperature_c": (0, 60),
            "steam_fraction": (0, 0.3),
            "simmer_minutes_at_sea_level": (0, 120),
            "simmer_w": (0, 1500),
            "priming_g": (0, 100),
            "margin_fraction": (0, 1),
        },
    ),
    (
        fuel_containers.liquid_containers,
        CAN,
        {
            "fuel_ml": (0, 1e6),
            "opened_ml": (0, 1e6),
            "at_least": (0, 100),
            "density_kg_per_l": (0.5, 1),
        },
    ),
    (can, {}, {"fill_limit": (0.3, 0.98), "capacity_ml": (50, 25_000)}),
    (
        fuel_containers.gas_canisters,
        CANISTER,
        {"gas_g": (0, 1e6), "opened_g": (0, 1e6), "usable_fraction": (0.05, 1)},
    ),
    (canister, {}, {"gas_g": (10, 5000)}),
    (
        saturation_pressure.saturation_pressure_hpa,
        {"gas": "propane"},
        {"temperature_c": CANISTER_C},
    ),
    (canister_gas.bubble_pressure_hpa, {"blend": BLEND}, {"temperature_c": CANISTER_C}),
    (
        canister_gas.depleted_blend,
        {"blend": BLEND, "mass_left_fraction": 0.5, "canister_temperature_c": 0},
        {"mass_left_fraction": LEFT, "canister_temperature_c": CANISTER_C},
    ),
    (
        canister_gas.depleted_pressure_hpa,
        {"blend": BLEND, "mass_left_fraction": 0.5, "canister_temperature_c": 0},
        {"mass_left_fraction": LEFT, "canister_temperature_c": CANISTER_C},
    ),
    (
        canister_gas.feed_stop_temperature_c,
        {"blend": BLEND, "pressure_hpa": 593},
        {"pressure_hpa": HPA, "mass_left_fraction": LEFT, "margin_hpa": (0, 1000)},
    ),
    (
        canister_gas.fraction_left_when_feed_stops,
        {"blend": BLEND, "pressure_hpa": 593, "canister_temperature_c": 0},
        {"pressure_hpa": HPA, "canister_temperature_c": CANISTER_C, "margin_hpa": (0, 1000)},
    ),
    (
        canister_answer.canister_answer,
        {"blend": BLEND, "pressure_hpa": 593, "canister_temperature_c": 0},
        {"pressure_hpa": HPA, "canister_temperature_c": CANISTER_C},
    ),
    (
        canister_answer.self_cooling_k_per_min,
        {"burn_g_per_h": 150, "gas_g": 250, "canister_g": 120},
        {
            "burn_g_per_h": (0, 500),
            "gas_g": (10, 5000),
            "canister_g": (20, 2000),
            "latent_kj_per_kg": (300, 450),
        },
    ),
    (sleep_at, {}, {"sleeping_m": (-400, 9000)}),
    (mean_gain_at, {}, {"sleeping_m": (-400, 9000)}),
    (
        sleeping_elevation.mean_gain_m_per_night,
        {"nights": NIGHTS},
        {"threshold_m": (-400, 9000)},
    ),
    (
        sleeping_elevation.nights_for_step,
        {"step_m": 900},
        {"step_m": (0, 5000), "mean_m_per_night": (100, 1000)},
    ),
]
EDGES = [
    pytest.param(function, {**given, name: value}, name, edge, beyond,
                 id=f"{function.__name__}-{name}-{edge:g}")
    for function, given, limits in CASES
    for name, (low, high) in limits.items()
    for value, edge, beyond in (
        (low, low, low - 1e-6 * max(1.0, abs(low))),
        (high, high, high + 1e-6 * max(1.0, abs(high))),
    )
    if math.isfinite(edge)
]  # fmt: skip


@pytest.mark.parametrize(("function", "given", "name", "edge", "beyond"), EDGES)
def test_each_limit_is_taken_and_no_more(
    function: Callable[..., object],
    given: dict[str, Any],
    name: str,
    edge: float,
    beyond: float,
) -> None:
    """A value at a stated limit is taken; a millionth beyond it is refused as out of range."""
    function(**given | {name: edge})
    with pytest.raises(ValueError, match="was given; allowed is"):
        function(**given | {name: beyond})


@pytest.mark.parametrize("case", CASES, ids=lambda case: case[0].__name__)
def test_a_value_that_is_not_a_number_is_refused(case: Case) -> None:
    """NaN is refused for every argument that has a limit."""
    function, given, limits = case
    for name in limits:
        with pytest.raises(ValueError, match="nan"):
            function(**given | {name: math.nan})
