"""Cache deep enough: firm snow lies over what is buried.

For each place that is left alone and whose depth is given: depth >= `cache_depth_m`. The amount
is in centimetres, rounded up. Published trip accounts have at least a metre, because birds dig.

Documents: peak-dispatches.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.left_alone import read_left_alone
from solver.plan import Finding

RULE = "cache_deep_enough"


def cache_deep_enough(facts: Facts) -> Iterator[Finding]:
    """Centimetres of snow that caches lack."""
    least = facts.problem.rules.number("cache_depth_m")
    for left in read_left_alone(facts):
        depth = left.cache.depth_m
        if depth is not None and depth < least:
            place = left.place.place_id
            yield Finding(
                RULE,
                f"the cache at {place} is {depth:g} m deep, {least:g} m of firm snow is the least",
                math.ceil((least - depth) * 100 - 1e-6),
                "cm",
                (("place", place),),
                (f"bury it {least:g} m deep", "leave it where the snow is deeper"),
            )
