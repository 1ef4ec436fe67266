"""The register of the checker: each rule of the rulebook and the function that judges it."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from solver.checker.ledger.replay import Replay
from solver.checker.rules.cache_loss_survived import cache_loss_survived
from solver.checker.rules.cache_poles_at_hand import cache_poles_at_hand
from solver.checker.rules.cache_time_limited import cache_time_limited
from solver.checker.rules.cache_unlabelled_is_lost import cache_unlabelled_is_lost
from solver.checker.rules.cache_within_reach import cache_within_reach
from solver.checker.rules.caches_diversified import caches_diversified
from solver.checker.rules.cargo_attended import cargo_attended
from solver.checker.rules.communicator_at_camp import communicator_at_camp
from solver.checker.rules.communicator_survives_loss import communicator_survives_loss
from solver.checker.rules.communicators_kept_apart import communicators_kept_apart
from solver.checker.rules.day_kit_carried import day_kit_carried
from solver.checker.rules.everything_flies_once import everything_flies_once
from solver.checker.rules.everything_returns import everything_returns
from solver.checker.rules.first_flight_self_sufficient import first_flight_self_sufficient
from solver.checker.rules.first_load_within_plan import first_load_within_plan
from solver.checker.rules.flight_length_held import flight_length_held
from solver.checker.rules.flight_payload_held import flight_payload_held
from solver.checker.rules.flight_seats_held import flight_seats_held
from solver.checker.rules.flight_volume_held import flight_volume_held
from solver.checker.rules.food_survives_loss import food_survives_loss
from solver.checker.rules.fuel_apart_from_food import fuel_apart_from_food
from solver.checker.rules.fuel_flies_apart import fuel_flies_apart
from solver.checker.rules.fuel_held import fuel_held
from solver.checker.rules.fuel_in_two_containers import fuel_in_two_containers
from solver.checker.rules.fuel_shares_even import fuel_shares_even
from solver.checker.rules.fuel_spread import fuel_spread
from solver.checker.rules.fuel_survives_loss import fuel_survives_loss
from solver.checker.rules.goes_no_further import goes_no_further
from solver.checker.rules.guide_flies_last import guide_flies_last
from solver.checker.rules.guides_carry_rescue_kit import guides_carry_rescue_kit
from solver.checker.rules.hand_overs_few import hand_overs_few
from solver.checker.rules.heaviest_days_limited import heaviest_days_limited
from solver.checker.rules.items_in_place import items_in_place
from solver.checker.rules.keeper_has_it import keeper_has_it
from solver.checker.rules.kinds_kept_apart import kinds_kept_apart
from solver.checker.rules.kitchen_for_each_group import kitchen_for_each_group
from solver.checker.rules.last_on_rope_light import last_on_rope_light
from solver.checker.rules.lead_sled_light import lead_sled_light
from solver.checker.rules.limited_load_within_rope_team import limited_load_within_rope_team
from solver.checker.rules.load_limit_held import load_limit_held
from solver.checker.rules.night_sets_held import night_sets_held
from solver.checker.rules.nightly_items_held import nightly_items_held
from solver.checker.rules.nobody_stranded import nobody_stranded
from solver.checker.rules.outbound_payload_lowered import outbound_payload_lowered
from solver.checker.rules.own_food_flies_first import own_food_flies_first
from solver.checker.rules.owner_carries import owner_carries
from solver.checker.rules.pack_cap_held import pack_cap_held
from solver.checker.rules.pack_light_for_body import pack_light_for_body
from solver.checker.rules.pack_volume_held import pack_volume_held
from solver.checker.rules.party_kit_carried import party_kit_carried
from solver.checker.rules.passengers_as_settled import passengers_as_settled
from solver.checker.rules.pins_kept import pins_kept
from solver.checker.rules.planning_limit_kept import planning_limit_kept
from solver.checker.rules.pumps_kept_apart import pumps_kept_apart
from solver.checker.rules.rescue_kit_in_two_packs import rescue_kit_in_two_packs
from solver.checker.rules.reserves_held import reserves_held
from solver.checker.rules.severe_allergens_apart import severe_allergens_apart
from solver.checker.rules.shelter_and_shovel_fly_first import shelter_and_shovel_fly_first
from solver.checker.rules.shelter_survives_loss import shelter_survives_loss
from solver.checker.rules.shelters_kept_apart import shelters_kept_apart
from solver.checker.rules.sled_cap_held import sled_cap_held
from solver.checker.rules.sled_light_on_traverse import sled_light_on_traverse
from solver.checker.rules.sled_limit_held import sled_limit_held
from solver.checker.rules.sled_only_on_sled_legs import sled_only_on_sled_legs
from solver.checker.rules.sled_share_downhill import sled_share_downhill
from solver.checker.rules.sled_share_uphill import sled_share_uphill
from solver.checker.rules.sled_volume_held import sled_volume_held
from solver.checker.rules.stove_survives_loss import stove_survives_loss
from solver.checker.rules.stove_when_far import stove_when_far
from solver.checker.rules.stoves_kept_apart import stoves_kept_apart
from solver.checker.rules.team_kit_in_team import team_kit_in_team
from solver.checker.rules.total_cap_held import total_cap_held
from solver.checker.rules.turn_round_stock_held import turn_round_stock_held
from solver.checker.rules.units_conserved import units_conserved
from solver.checker.rules.units_ride_with_people import units_ride_with_people
from solver.checker.rules.vital_kit_on_owner import vital_kit_on_owner
from solver.plan import Finding

RULES: tuple[tuple[str, Callable[[Replay], Iterator[Finding]]], ...] = (
    ("units_conserved", units_conserved),
    ("units_ride_with_people", units_ride_with_people),
    ("night_sets_held", night_sets_held),
    ("fuel_held", fuel_held),
    ("reserves_held", reserves_held),
    ("nightly_items_held", nightly_items_held),
    ("items_in_place", items_in_place),
    ("goes_no_further", goes_no_further),
    ("party_kit_carried", party_kit_carried),
    ("day_kit_carried", day_kit_carried),
    ("owner_carries", owner_carries),
    ("vital_kit_on_owner", vital_kit_on_owner),
    ("pack_cap_held", pack_cap_held),
    ("pack_volume_held", pack_volume_held),
    ("sled_only_on_sled_legs", sled_only_on_sled_legs),
    ("sled_cap_held", sled_cap_held),
    ("sled_limit_held", sled_limit_held),
    ("sled_volume_held", sled_volume_held),
    ("total_cap_held", total_cap_held),
    ("kinds_kept_apart", kinds_kept_apart),
    ("fuel_spread", fuel_spread),
    ("everything_returns", everything_returns),
    ("pins_kept", pins_kept),
    ("load_limit_held", load_limit_held),
    ("first_load_within_plan", first_load_within_plan),
    ("severe_allergens_apart", severe_allergens_apart),
    ("team_kit_in_team", team_kit_in_team),
    ("stove_survives_loss", stove_survives_loss),
    ("shelter_survives_loss", shelter_survives_loss),
    ("communicator_survives_loss", communicator_survives_loss),
    ("fuel_survives_loss", fuel_survives_loss),
    ("food_survives_loss", food_survives_loss),
    ("stoves_kept_apart", stoves_kept_apart),
    ("pumps_kept_apart", pumps_kept_apart),
    ("shelters_kept_apart", shelters_kept_apart),
    ("communicators_kept_apart", communicators_kept_apart),
    ("rescue_kit_in_two_packs", rescue_kit_in_two_packs),
    ("stove_when_far", stove_when_far),
    ("kitchen_for_each_group", kitchen_for_each_group),
    ("communicator_at_camp", communicator_at_camp),
    ("fuel_in_two_containers", fuel_in_two_containers),
    ("fuel_shares_even", fuel_shares_even),
    ("turn_round_stock_held", turn_round_stock_held),
    ("cache_loss_survived", cache_loss_survived),
    ("cache_time_limited", cache_time_limited),
    ("planning_limit_kept", planning_limit_kept),
    ("pack_light_for_body", pack_light_for_body),
    ("heaviest_days_limited", heaviest_days_limited),
    ("sled_share_uphill", sled_share_uphill),
    ("sled_share_downhill", sled_share_downhill),
    ("sled_light_on_traverse", sled_light_on_traverse),
    ("last_on_rope_light", last_on_rope_light),
    ("lead_sled_light", lead_sled_light),
    ("guides_carry_rescue_kit", guides_carry_rescue_kit),
    ("fuel_apart_from_food", fuel_apart_from_food),
    ("keeper_has_it", keeper_has_it),
    ("hand_overs_few", hand_overs_few),
    ("limited_load_within_rope_team", limited_load_within_rope_team),
    ("everything_flies_once", everything_flies_once),
    ("passengers_as_settled", passengers_as_settled),
    ("flight_payload_held", flight_payload_held),
    ("flight_seats_held", flight_seats_held),
    ("flight_volume_held", flight_volume_held),
    ("flight_length_held", flight_length_held),
    ("outbound_payload_lowered", outbound_payload_lowered),
    ("fuel_flies_apart", fuel_flies_apart),
    ("first_flight_self_sufficient", first_flight_self_sufficient),
    ("nobody_stranded", nobody_stranded),
    ("cargo_attended", cargo_attended),
    ("shelter_and_shovel_fly_first", shelter_and_shovel_fly_first),
    ("guide_flies_last", guide_flies_last),
    ("own_food_flies_first", own_food_flies_first),
    ("caches_diversified", caches_diversified),
    ("cache_within_reach", cache_within_reach),
    ("cache_unlabelled_is_lost", cache_unlabelled_is_lost),
    ("cache_poles_at_hand", cache_poles_at_hand),
)
