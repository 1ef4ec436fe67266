"""The register of rules on the request alone: calendar, people, gear, food and places.

No plan changes what these rules find, so they are asked once, before the search. A hard one
that is broken is a refusal, in words with what would be allowed instead.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.request_rules.allergens_avoided import allergens_avoided
from solver.checker.request_rules.base_wait_planned import base_wait_planned
from solver.checker.request_rules.big_step_prepared import big_step_prepared
from solver.checker.request_rules.cache_deep_enough import cache_deep_enough
from solver.checker.request_rules.cache_facts_missing import cache_facts_missing
from solver.checker.request_rules.cache_labelled import cache_labelled
from solver.checker.request_rules.cache_marked import cache_marked
from solver.checker.request_rules.cache_marker_apart import cache_marker_apart
from solver.checker.request_rules.cache_may_melt_out import cache_may_melt_out
from solver.checker.request_rules.cache_place_safe import cache_place_safe
from solver.checker.request_rules.cache_pole_tall_enough import cache_pole_tall_enough
from solver.checker.request_rules.canister_upright_in_cold import canister_upright_in_cold
from solver.checker.request_rules.cargo_lengths_given import cargo_lengths_given
from solver.checker.request_rules.carried_high_first import carried_high_first
from solver.checker.request_rules.clothing_not_given import clothing_not_given
from solver.checker.request_rules.cold_clothing_in_place import cold_clothing_in_place
from solver.checker.request_rules.cold_clothing_listed import cold_clothing_listed
from solver.checker.request_rules.communicators_of_two_kinds import communicators_of_two_kinds
from solver.checker.request_rules.communicators_with_voice import communicators_with_voice
from solver.checker.request_rules.container_capacity_given import container_capacity_given
from solver.checker.request_rules.container_fill_limited import container_fill_limited
from solver.checker.request_rules.crevasse_hazard_given import crevasse_hazard_given
from solver.checker.request_rules.descent_reserve_planned import descent_reserve_planned
from solver.checker.request_rules.diet_kept import diet_kept
from solver.checker.request_rules.energy_floor_held import energy_floor_held
from solver.checker.request_rules.energy_on_target import energy_on_target
from solver.checker.request_rules.evacuation_load_fits import evacuation_load_fits
from solver.checker.request_rules.evacuation_party import evacuation_party
from solver.checker.request_rules.evacuation_possible import evacuation_possible
from solver.checker.request_rules.flying_mass_known import flying_mass_known
from solver.checker.request_rules.flying_mass_weighed import flying_mass_weighed
from solver.checker.request_rules.food_facts_missing import food_facts_missing
from solver.checker.request_rules.food_mass_in_band import food_mass_in_band
from solver.checker.request_rules.food_stands_frost import food_stands_frost
from solver.checker.request_rules.fuel_burns_cold_skin import fuel_burns_cold_skin
from solver.checker.request_rules.fuel_covers_water import fuel_covers_water
from solver.checker.request_rules.fuel_rate_in_band import fuel_rate_in_band
from solver.checker.request_rules.fuel_stowed_rear import fuel_stowed_rear
from solver.checker.request_rules.guide_ratio_held import guide_ratio_held
from solver.checker.request_rules.guide_with_party import guide_with_party
from solver.checker.request_rules.hard_days_limited import hard_days_limited
from solver.checker.request_rules.hot_meal_after_summit import hot_meal_after_summit
from solver.checker.request_rules.human_waste_carried_out import human_waste_carried_out
from solver.checker.request_rules.human_waste_container_listed import human_waste_container_listed
from solver.checker.request_rules.human_waste_containers_enough import human_waste_containers_enough
from solver.checker.request_rules.injector_doubled import injector_doubled
from solver.checker.request_rules.injector_listed import injector_listed
from solver.checker.request_rules.kit_listed import kit_listed
from solver.checker.request_rules.leg_hours_not_given import leg_hours_not_given
from solver.checker.request_rules.lighters_in_three_places import lighters_in_three_places
from solver.checker.request_rules.lunch_needs_no_cooking import lunch_needs_no_cooking
from solver.checker.request_rules.lunch_shared_with_allergic import lunch_shared_with_allergic
from solver.checker.request_rules.mass_loss_limited import mass_loss_limited
from solver.checker.request_rules.medication_on_person import medication_on_person
from solver.checker.request_rules.menu_in_elevation_band import menu_in_elevation_band
from solver.checker.request_rules.menu_varied import menu_varied
from solver.checker.request_rules.night_temperature_given import night_temperature_given
from solver.checker.request_rules.nightly_kit_complete import nightly_kit_complete
from solver.checker.request_rules.party_big_enough import party_big_enough
from solver.checker.request_rules.party_kit_complete import party_kit_complete
from solver.checker.request_rules.payload_for_people import payload_for_people
from solver.checker.request_rules.pots_enough import pots_enough
from solver.checker.request_rules.rescue_kits_enough import rescue_kits_enough
from solver.checker.request_rules.seats_for_all import seats_for_all
from solver.checker.request_rules.second_link import second_link
from solver.checker.request_rules.shelter_for_all import shelter_for_all
from solver.checker.request_rules.sled_lowered_on_steep import sled_lowered_on_steep
from solver.checker.request_rules.sled_slope_limited import sled_slope_limited
from solver.checker.request_rules.sled_slope_not_given import sled_slope_not_given
from solver.checker.request_rules.sleeping_elevation_gain_cautious import (
    sleeping_elevation_gain_cautious,
)
from solver.checker.request_rules.sleeping_elevation_gain_held import sleeping_elevation_gain_held
from solver.checker.request_rules.spare_mitts_carried import spare_mitts_carried
from solver.checker.request_rules.spare_sled_kept import spare_sled_kept
from solver.checker.request_rules.stay_low_with_one_guide import stay_low_with_one_guide
from solver.checker.request_rules.storm_reserve_planned import storm_reserve_planned
from solver.checker.request_rules.stove_needs_air import stove_needs_air
from solver.checker.request_rules.stove_works_in_cold import stove_works_in_cold
from solver.checker.request_rules.stoves_enough import stoves_enough
from solver.checker.request_rules.summit_day_fed import summit_day_fed
from solver.checker.request_rules.summit_times_kept import summit_times_kept
from solver.checker.request_rules.summit_times_not_given import summit_times_not_given
from solver.checker.request_rules.travel_hours_limited import travel_hours_limited
from solver.checker.request_rules.water_enough import water_enough
from solver.checker.request_rules.weather_days_enough import weather_days_enough
from solver.checker.request_rules.weather_multiplies_fuel import weather_multiplies_fuel
from solver.plan import Finding

RequestRule = Callable[[Facts], Iterator[Finding]]

REQUEST_RULES: tuple[tuple[str, RequestRule], ...] = (
    ("sleeping_elevation_gain_held", sleeping_elevation_gain_held),
    ("sleeping_elevation_gain_cautious", sleeping_elevation_gain_cautious),
    ("big_step_prepared", big_step_prepared),
    ("carried_high_first", carried_high_first),
    ("hard_days_limited", hard_days_limited),
    ("summit_times_kept", summit_times_kept),
    ("summit_times_not_given", summit_times_not_given),
    ("travel_hours_limited", travel_hours_limited),
    ("leg_hours_not_given", leg_hours_not_given),
    ("weather_days_enough", weather_days_enough),
    ("sled_slope_limited", sled_slope_limited),
    ("sled_lowered_on_steep", sled_lowered_on_steep),
    ("sled_slope_not_given", sled_slope_not_given),
    ("storm_reserve_planned", storm_reserve_planned),
    ("descent_reserve_planned", descent_reserve_planned),
    ("base_wait_planned", base_wait_planned),
    ("seats_for_all", seats_for_all),
    ("flying_mass_known", flying_mass_known),
    ("flying_mass_weighed", flying_mass_weighed),
    ("payload_for_people", payload_for_people),
    ("cargo_lengths_given", cargo_lengths_given),
    ("cache_deep_enough", cache_deep_enough),
    ("cache_place_safe", cache_place_safe),
    ("cache_may_melt_out", cache_may_melt_out),
    ("cache_marked", cache_marked),
    ("cache_marker_apart", cache_marker_apart),
    ("cache_pole_tall_enough", cache_pole_tall_enough),
    ("cache_labelled", cache_labelled),
    ("cache_facts_missing", cache_facts_missing),
    ("kit_listed", kit_listed),
    ("party_kit_complete", party_kit_complete),
    ("rescue_kits_enough", rescue_kits_enough),
    ("party_big_enough", party_big_enough),
    ("guide_with_party", guide_with_party),
    ("guide_ratio_held", guide_ratio_held),
    ("stay_low_with_one_guide", stay_low_with_one_guide),
    ("stoves_enough", stoves_enough),
    ("pots_enough", pots_enough),
    ("communicators_of_two_kinds", communicators_of_two_kinds),
    ("communicators_with_voice", communicators_with_voice),
    ("lighters_in_three_places", lighters_in_three_places),
    ("shelter_for_all", shelter_for_all),
    ("medication_on_person", medication_on_person),
    ("injector_doubled", injector_doubled),
    ("injector_listed", injector_listed),
    ("second_link", second_link),
    ("spare_sled_kept", spare_sled_kept),
    ("evacuation_possible", evacuation_possible),
    ("evacuation_party", evacuation_party),
    ("evacuation_load_fits", evacuation_load_fits),
    ("crevasse_hazard_given", crevasse_hazard_given),
    ("nightly_kit_complete", nightly_kit_complete),
    ("clothing_not_given", clothing_not_given),
    ("cold_clothing_in_place", cold_clothing_in_place),
    ("cold_clothing_listed", cold_clothing_listed),
    ("spare_mitts_carried", spare_mitts_carried),
    ("night_temperature_given", night_temperature_given),
    ("allergens_avoided", allergens_avoided),
    ("lunch_shared_with_allergic", lunch_shared_with_allergic),
    ("diet_kept", diet_kept),
    ("lunch_needs_no_cooking", lunch_needs_no_cooking),
    ("food_stands_frost", food_stands_frost),
    ("energy_floor_held", energy_floor_held),
    ("energy_on_target", energy_on_target),
    ("mass_loss_limited", mass_loss_limited),
    ("food_mass_in_band", food_mass_in_band),
    ("menu_in_elevation_band", menu_in_elevation_band),
    ("menu_varied", menu_varied),
    ("water_enough", water_enough),
    ("summit_day_fed", summit_day_fed),
    ("hot_meal_after_summit", hot_meal_after_summit),
    ("food_facts_missing", food_facts_missing),
    ("fuel_rate_in_band", fuel_rate_in_band),
    ("fuel_covers_water", fuel_covers_water),
    ("stove_works_in_cold", stove_works_in_cold),
    ("canister_upright_in_cold", canister_upright_in_cold),
    ("weather_multiplies_fuel", weather_multiplies_fuel),
    ("fuel_stowed_rear", fuel_stowed_rear),
    ("container_fill_limited", container_fill_limited),
    ("container_capacity_given", container_capacity_given),
    ("stove_needs_air", stove_needs_air),
    ("fuel_burns_cold_skin", fuel_burns_cold_skin),
    ("human_waste_carried_out", human_waste_carried_out),
    ("human_waste_containers_enough", human_waste_containers_enough),
    ("human_waste_container_listed", human_waste_container_listed),
)
