"""The register of rules that the model builds, each a function from world to rows."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from solver.model.rows import Row
from solver.model.rules import (
    day_kit_carried,
    everything_returns,
    fuel_held,
    fuel_spread,
    items_in_place,
    kinds_kept_apart,
    night_sets_held,
    nightly_items_held,
    owner_carries,
    pack_cap_held,
    pack_volume_held,
    party_kit_carried,
    reserves_held,
    sled_cap_held,
    sled_limit_held,
    sled_only_on_sled_legs,
    sled_volume_held,
    total_cap_held,
    units_conserved,
    units_ride_with_people,
)
from solver.model.world import World

Builder = Callable[[World], Sequence[Row]]

BUILDERS: tuple[tuple[str, Builder], ...] = (
    ("units_conserved", units_conserved.build),
    ("units_ride_with_people", units_ride_with_people.build),
    ("night_sets_held", night_sets_held.build),
    ("fuel_held", fuel_held.build),
    ("reserves_held", reserves_held.build),
    ("nightly_items_held", nightly_items_held.build),
    ("items_in_place", items_in_place.build),
    ("party_kit_carried", party_kit_carried.build),
    ("day_kit_carried", day_kit_carried.build),
    ("owner_carries", owner_carries.build),
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
)

CHECKED_ONLY: dict[str, str] = {}
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
