"""Sled slope limited: no leg that is walked with sleds is too steep for them.

For each leg on which sleds are hauled, where its steepest part is given: that <=
`steepest_sled_deg`. The amount is in degrees, rounded up.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from solver.checker.ledger.facts import Facts
from solver.checker.queries.sled_legs import read_sled_legs
from solver.plan import Finding

RULE = "sled_slope_limited"


def sled_slope_limited(facts: Facts) -> Iterator[Finding]:
    """Degrees by which legs with sleds are too steep."""
    most = facts.problem.rules.whole("steepest_sled_deg")
    for leg, _ in read_sled_legs(facts):
        if leg.steepest_deg is not None and leg.steepest_deg > most:
            yield Finding(
                RULE,
                f"leg {leg.leg_id} is {leg.steepest_deg:g} degrees at its steepest, sleds go up "
                f"to {most} degrees",
                math.ceil(leg.steepest_deg - most),
                "degrees",
                (("leg", leg.leg_id), ("from_place", leg.from_place), ("to_place", leg.to_place)),
                (
                    f"make leg {leg.leg_id} a pack leg and leave the sleds at {leg.from_place}",
                    f"take a way of at most {most} degrees",
                ),
            )
