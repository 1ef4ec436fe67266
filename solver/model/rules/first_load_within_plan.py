"""On the way out from the start every load is at most a share of its cap [g].

For each trip out from the start place: pack ≤ share × pack cap, sled ≤ share × sled cap on that
leg, both together ≤ share × total cap of who hauls a sled alone (unless it is waived), and ≤
share × load limit of who has one.
"""

from __future__ import annotations

from dataclasses import replace

from solver.model.instance.world import World
from solver.model.rows import LoadRow
from solver.model.rules import load_limit_held, pack_cap_held, sled_cap_held, total_cap_held
from solver.problem import Direction
from solver.quantities import share_down


def build(world: World) -> list[LoadRow]:
    """The rows of the caps on those trips, each with a lower cap."""
    percent = world.problem.rules.whole("first_load_percent")
    first = {
        trip.index
        for trip in world.timeline.trips
        if trip.from_place == world.problem.start_place and trip.direction is Direction.OUTBOUND
    }
    caps = [pack_cap_held.build, sled_cap_held.build, load_limit_held.build]
    if world.problem.must_keep("total_cap_held"):
        caps.append(total_cap_held.build)
    return [
        replace(
            row,
            rule_id="first_load_within_plan",
            cap=share_down(amount=row.cap, percent=percent),
            in_fraction=False,
        )
        for build_caps in caps
        for row in build_caps(world)
        if row.trip in first and row.in_fraction
    ]
