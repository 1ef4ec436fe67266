"""The register of the checker: each rule of the rulebook and the function that judges it."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from solver.checker.replay import Replay
from solver.checker.rules.cache_unlabelled_is_lost import cache_unlabelled_is_lost
from solver.checker.rules.cache_within_reach import cache_within_reach
from solver.checker.rules.caches_diversified import caches_diversified
from solver.checker.rules.day_kit_carried import day_kit_carried
from solver.checker.rules.everything_returns import everything_returns
from solver.checker.rules.fuel_held import fuel_held
from solver.checker.rules.fuel_spread import fuel_spread
from solver.checker.rules.items_in_place import items_in_place
from solver.checker.rules.kinds_kept_apart import kinds_kept_apart
from solver.checker.rules.night_sets_held import night_sets_held
from solver.checker.rules.nightly_items_held import nightly_items_held
from solver.checker.rules.owner_carries import owner_carries
from solver.checker.rules.pack_cap_held import pack_cap_held
from solver.checker.rules.pack_volume_held import pack_volume_held
from solver.checker.rules.party_kit_carried import party_kit_carried
from solver.checker.rules.reserves_held import reserves_held
from solver.checker.rules.sled_cap_held import sled_cap_held
from solver.checker.rules.sled_limit_held import sled_limit_held
from solver.checker.rules.sled_only_on_sled_legs import sled_only_on_sled_legs
from solver.checker.rules.sled_volume_held import sled_volume_held
from solver.checker.rules.total_cap_held import total_cap_held
from solver.checker.rules.units_conserved import units_conserved
from solver.checker.rules.units_ride_with_people import units_ride_with_people
from solver.plan import Finding

RULES: tuple[tuple[str, Callable[[Replay], Iterator[Finding]]], ...] = (
    ("units_conserved", units_conserved),
    ("units_ride_with_people", units_ride_with_people),
    ("night_sets_held", night_sets_held),
    ("fuel_held", fuel_held),
    ("reserves_held", reserves_held),
    ("nightly_items_held", nightly_items_held),
    ("items_in_place", items_in_place),
    ("party_kit_carried", party_kit_carried),
    ("day_kit_carried", day_kit_carried),
    ("owner_carries", owner_carries),
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
    ("caches_diversified", caches_diversified),
    ("cache_within_reach", cache_within_reach),
    ("cache_unlabelled_is_lost", cache_unlabelled_is_lost),
)
