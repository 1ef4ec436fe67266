"""The register of rules that the model builds, each a function from world to rows."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from solver.model.instance.world import World
from solver.model.rows import Row
from solver.model.rules import (
    cache_loss_survived,
    cache_time_limited,
    communicator_at_camp,
    communicator_survives_loss,
    communicators_kept_apart,
    day_kit_carried,
    everything_returns,
    first_load_within_plan,
    food_survives_loss,
    fuel_held,
    fuel_in_two_containers,
    fuel_spread,
    fuel_survives_loss,
    goes_no_further,
    items_in_place,
    kinds_kept_apart,
    kitchen_for_each_group,
    load_limit_held,
    night_sets_held,
    nightly_items_held,
    owner_carries,
    pack_cap_held,
    pack_volume_held,
    party_kit_carried,
    pins_kept,
    pumps_kept_apart,
    rescue_kit_in_two_packs,
    reserves_held,
    severe_allergens_apart,
    shelter_survives_loss,
    shelters_kept_apart,
    sled_cap_held,
    sled_limit_held,
    sled_only_on_sled_legs,
    sled_volume_held,
    stove_survives_loss,
    stove_when_far,
    stoves_kept_apart,
    team_kit_in_team,
    total_cap_held,
    turn_round_stock_held,
    units_conserved,
    units_ride_with_people,
    vital_kit_on_owner,
)
from solver.rulebook import RULES

Builder = Callable[[World], Sequence[Row]]

BUILDERS: tuple[tuple[str, Builder], ...] = (
    ("units_conserved", units_conserved.build),
    ("units_ride_with_people", units_ride_with_people.build),
    ("night_sets_held", night_sets_held.build),
    ("fuel_held", fuel_held.build),
    ("reserves_held", reserves_held.build),
    ("nightly_items_held", nightly_items_held.build),
    ("items_in_place", items_in_place.build),
    ("goes_no_further", goes_no_further.build),
    ("party_kit_carried", party_kit_carried.build),
    ("day_kit_carried", day_kit_carried.build),
    ("owner_carries", owner_carries.build),
    ("vital_kit_on_owner", vital_kit_on_owner.build),
    ("pack_cap_held", pack_cap_held.build),
    ("pack_volume_held", pack_volume_held.build),
    ("sled_only_on_sled_legs", sled_only_on_sled_legs.build),
    ("sled_cap_held", sled_cap_held.build),
    ("sled_limit_held", sled_limit_held.build),
    ("sled_volume_held", sled_volume_held.build),
    ("total_cap_held", total_cap_held.build),
    ("kinds_kept_apart", kinds_kept_apart.build),
    ("fuel_spread", fuel_spread.build),
    ("everything_returns", everything_returns.build),
    ("pins_kept", pins_kept.build),
    ("stove_survives_loss", stove_survives_loss.build),
    ("shelter_survives_loss", shelter_survives_loss.build),
    ("communicator_survives_loss", communicator_survives_loss.build),
    ("fuel_survives_loss", fuel_survives_loss.build),
    ("food_survives_loss", food_survives_loss.build),
    ("stoves_kept_apart", stoves_kept_apart.build),
    ("pumps_kept_apart", pumps_kept_apart.build),
    ("shelters_kept_apart", shelters_kept_apart.build),
    ("communicators_kept_apart", communicators_kept_apart.build),
    ("rescue_kit_in_two_packs", rescue_kit_in_two_packs.build),
    ("stove_when_far", stove_when_far.build),
    ("kitchen_for_each_group", kitchen_for_each_group.build),
    ("communicator_at_camp", communicator_at_camp.build),
    ("fuel_in_two_containers", fuel_in_two_containers.build),
    ("turn_round_stock_held", turn_round_stock_held.build),
    ("cache_loss_survived", cache_loss_survived.build),
    ("cache_time_limited", cache_time_limited.build),
    ("load_limit_held", load_limit_held.build),
    ("first_load_within_plan", first_load_within_plan.build),
    ("severe_allergens_apart", severe_allergens_apart.build),
    ("team_kit_in_team", team_kit_in_team.build),
)

_STEERED = "a preference: no row forbids what breaks it, the goal of preferences counts it"

CHECKED_ONLY: dict[str, str] = {
    "fuel_shares_even": "a preference: the sizes of containers settle it, not where they ride",
    "planning_limit_kept": "a preference that the least peak serves as far as it can be served",
    "pack_light_for_body": "a caution: what a body bears is for the leader to judge",
    "hand_overs_few": "a preference that the goal of swaps serves, over all people and days",
    "limited_load_within_rope_team": "a preference that loads shared out by caps come close to",
    "caches_diversified": "a preference: where stock stands follows from the calendar's carries",
    "cache_within_reach": "a preference: how far a cache lies is the calendar's doing",
    "outbound_payload_lowered": "a caution: the least share of a payload is counted of the lowered",
    "cache_unlabelled_is_lost": "a caution: labels are written on the spot, whatever the plan",
    "cache_poles_at_hand": "a caution: a leader may mark with something else than the poles listed",
    **{rule.rule_id: _STEERED for rule in RULES if rule.steered},
}
"""Rules on plans without a builder, each with the reason why only the checker asks it.

Rules on the request alone are not listed: no plan changes what they find, so they are asked
before the search and the model is never built where a hard one is broken.
"""


def build_rows(world: World) -> list[Row]:
    """All rows of all rules that a plan of this request must keep."""
    return [
        row
        for rule_id, build in BUILDERS
        if world.problem.must_keep(rule_id)
        for row in build(world)
    ]
